const elf = new Map([
  [62, "x64"],
  [183, "arm64"],
]);
const pe = new Map([
  [0x8664, "x64"],
  [0xaa64, "arm64"],
]);
const mach = new Map([
  [0x01000007, "x64"],
  [0x0100000c, "arm64"],
]);

/**
 * The system and processor that a native file was compiled for, as its own header says and not its name:
 * e_machine of ELF, Machine of PE, cputype of a 64-bit Mach-O.
 *
 * @returns such as "linux x64"; "unknown" where the header, or the processor in it, is none of these
 */
export function machineOf(file: Buffer): string {
  if (file.length < 64) return "unknown";
  if (file.readUInt32BE(0) === 0x7f454c46)
    return `linux ${elf.get(file.readUInt16LE(18)) ?? "unknown"}`;
  if (file.readUInt32LE(0) === 0xfeedfacf)
    return `mac ${mach.get(file.readUInt32LE(4)) ?? "unknown"}`;
  const header = file.toString("latin1", 0, 2) === "MZ" ? file.readUInt32LE(60) : file.length;
  if (header + 6 > file.length || file.toString("latin1", header, header + 4) !== "PE\0\0")
    return "unknown";
  return `win ${pe.get(file.readUInt16LE(header + 4)) ?? "unknown"}`;
}
