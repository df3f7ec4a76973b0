// Loaded into the app's own process before anything else: notes and refuses whatever does not stay on
// this machine, sent or listened for. PEBBLECHIME_ASKED names the file to note it in.

import dgram from "node:dgram";
import dns from "node:dns";
import { appendFileSync } from "node:fs";
import { syncBuiltinESMExports } from "node:module";
import net from "node:net";

const isThisMachine = (host) => /^(localhost|127\.\d+\.\d+\.\d+|::1)$/.test(String(host));
/** To connect to no address, or to the one that means all, is to connect to this machine. */
const staysHere = (host) =>
  host === undefined || host === null || /^(0\.0\.0\.0|::)$/.test(host) || isThisMachine(host);

function refuse(what) {
  appendFileSync(process.env.PEBBLECHIME_ASKED, `${what}\n`);
  throw new Error(`Only this machine may be reached, not ${what}.`);
}

/** Puts a check before a method of an object, which gets the method's words. */
function guard(object, method, check) {
  const own = object[method];
  object[method] = function (...words) {
    check(words);
    return own.apply(this, words);
  };
}

/** The host among the words of `connect` and `listen`: in an object, after a port, or none for a path. */
function hostOf(words) {
  const [first, second] = Array.isArray(words[0]) ? words[0] : words;
  if (typeof first === "object" && first !== null)
    return first.path || first.fd !== undefined ? "localhost" : first.host;
  if (typeof first === "string" && !/^\d+$/.test(first)) return "localhost";
  return typeof second === "string" ? second : undefined;
}

guard(net.Socket.prototype, "connect", (words) => {
  if (!staysHere(hostOf(words))) refuse(`a connection to ${hostOf(words)}`);
});
guard(net.Server.prototype, "listen", (words) => {
  if (!isThisMachine(hostOf(words))) refuse(`listening on ${hostOf(words) ?? "every address"}`);
});

const questions = Object.keys(dns).filter((name) => /^(lookup|resolve|reverse)/.test(name));
for (const place of [dns, dns.promises, dns.Resolver.prototype, dns.promises.Resolver.prototype])
  for (const question of questions)
    if (question in place)
      guard(place, question, ([host]) => {
        if (!staysHere(host)) refuse(`the name ${host}`);
      });

// (message, [offset, length,] port, address, done): the address is the only text after the message.
guard(dgram.Socket.prototype, "send", ([, ...words]) => {
  const address = words.find((word) => typeof word === "string" && !/^\d+$/.test(word));
  if (!staysHere(address)) refuse(`a datagram to ${address}`);
});
guard(dgram.Socket.prototype, "connect", ([, address]) => {
  if (typeof address === "string" && !staysHere(address)) refuse(`a datagram to ${address}`);
});
guard(dgram.Socket.prototype, "addMembership", ([address]) =>
  refuse(`the multicast of ${address}`),
);

// What was imported by name is the guarded one too.
syncBuiltinESMExports();
