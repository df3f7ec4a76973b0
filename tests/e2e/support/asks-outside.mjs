// Asks outside in every way that Node has, and prints how many of them were let through:
//   node --import=refuse-network.mjs asks-outside.mjs
// 192.0.2.1 and example.org are nobody's: RFC 5737 and RFC 2606.
import { createSocket } from "node:dgram";
import dns, { lookup } from "node:dns";
import dnsPromises from "node:dns/promises";
import { get } from "node:http";
import { get as getEncrypted } from "node:https";
import { connect, createServer } from "node:net";
import { connect as connectEncrypted } from "node:tls";

const nobody = "192.0.2.1";
const ways = [
  () => connect({ host: nobody, port: 80 }),
  () => connect(80, nobody),
  () => connectEncrypted({ host: nobody, port: 443 }),
  () => get({ host: nobody, agent: false }),
  () => getEncrypted(`https://${nobody}/`, { agent: false }),
  () => fetch(`http://${nobody}/`),
  () => lookup("example.org", () => {}),
  () => dns.resolve4("example.org", () => {}),
  () => dns.promises.lookup("example.org"),
  () => dnsPromises.resolve("example.org"),
  () => new dns.Resolver().resolve("example.org", () => {}),
  () => createSocket("udp4").send("x", 53, nobody),
  () => createSocket("udp4").connect(53, nobody),
  () => createSocket("udp4").addMembership("224.0.0.251"),
  () => createServer().listen(0),
  () => createServer().listen(0, "0.0.0.0"),
];
let passed = 0;
for (const way of ways) {
  try {
    const made = await way();
    await new Promise((resolve, reject) => {
      made?.on?.("error", reject);
      setTimeout(resolve, 200);
    });
    passed += 1;
  } catch {
    // Refused.
  }
}
const here = createServer().listen(0, "127.0.0.1");
await new Promise((resolve) => here.on("listening", resolve));
await new Promise((resolve) => connect(here.address().port, "127.0.0.1", resolve));
await dns.promises.lookup("localhost");
process.stdout.write(JSON.stringify({ ways: ways.length, passed }));
process.exit(0);
