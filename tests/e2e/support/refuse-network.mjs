// Loaded into the app's own process before anything else: notes and refuses whatever does not stay on
// this machine. PEBBLECHIME_ASKED names the file to note it in.

import dns from "node:dns";
import { appendFileSync } from "node:fs";
import net from "node:net";

const isHere = (host) =>
  host === undefined || /^(localhost|127\.\d+\.\d+\.\d+|::1|0\.0\.0\.0|::)$/.test(String(host));

function refuse(what) {
  appendFileSync(process.env.PEBBLECHIME_ASKED, `${what}\n`);
  throw new Error(`Only this machine may be reached, not ${what}.`);
}

const connect = net.Socket.prototype.connect;
net.Socket.prototype.connect = function (...words) {
  const [first] = Array.isArray(words[0]) ? words[0] : words;
  if (typeof first === "object" && first !== null && !isHere(first.host)) refuse(first.host);
  return connect.apply(this, words);
};

const lookup = dns.lookup;
dns.lookup = (host, ...rest) => (isHere(host) ? lookup(host, ...rest) : refuse(host));
