// SQLite's own format, sqlite.org/fileformat2.html, section 4 ("The Write-Ahead Log"): a header of 32
// bytes, then frames of 24 bytes and one page each. A frame counts while its salts are the header's and
// its running checksum is right; what comes after the last commit never happened.

const headerLength = 32;
const frameHeaderLength = 24;
const bigEndianMagic = 0x377f0683;
const littleEndianMagic = 0x377f0682;

/**
 * A data file as it stands with its log taken over, as bytes that need no log: what SQLite itself would
 * do in the file if the disk let it.
 *
 * @param file the bytes of the data file
 * @param log the bytes of the log beside it; empty when there is none
 */
export function withLog(file: Buffer, log: Buffer): Buffer {
  const pages = committedPages(log);
  const size = pages?.size ?? 0;
  const taken = pages === null ? Buffer.from(file) : Buffer.alloc(size);
  if (pages !== null) {
    file.copy(taken, 0, 0, Math.min(file.length, size));
    for (const [offset, page] of pages.byOffset) if (offset < size) page.copy(taken, offset);
  }
  // Bytes 18 and 19 say that a log belongs to the file: 2 with one, 1 without.
  if (taken.length >= 20) taken.fill(1, 18, 20);
  return taken;
}

/** The pages that the log's commits wrote, and how long the file is after the last; null without any. */
function committedPages(log: Buffer) {
  if (log.length < headerLength) return null;
  const magic = log.readUInt32BE(0);
  if (magic !== bigEndianMagic && magic !== littleEndianMagic) return null;
  const sum = checksum(magic === bigEndianMagic);
  sum.add(log.subarray(0, 24));
  if (!sum.is(log.readUInt32BE(24), log.readUInt32BE(28))) return null;
  const pageSize = log.readUInt32BE(8);
  const salts = log.subarray(16, 24);
  const byOffset = new Map<number, Buffer>();
  let open = new Map<number, Buffer>();
  let size: number | null = null;
  const step = frameHeaderLength + pageSize;
  for (let at = headerLength; at + step <= log.length; at += step) {
    const frame = log.subarray(at, at + frameHeaderLength);
    const page = log.subarray(at + frameHeaderLength, at + step);
    sum.add(frame.subarray(0, 8));
    sum.add(page);
    if (!frame.subarray(8, 16).equals(salts)) break;
    if (!sum.is(frame.readUInt32BE(16), frame.readUInt32BE(20))) break;
    open.set((frame.readUInt32BE(0) - 1) * pageSize, page);
    const pagesAfterCommit = frame.readUInt32BE(4);
    if (pagesAfterCommit === 0) continue;
    for (const [offset, written] of open) byOffset.set(offset, written);
    open = new Map();
    size = pagesAfterCommit * pageSize;
  }
  return size === null ? null : { byOffset, size };
}

/** The log's running checksum: over pairs of words, each sum taking in the other. */
function checksum(isBigEndian: boolean) {
  let first = 0;
  let second = 0;
  return {
    add(bytes: Buffer): void {
      for (let at = 0; at + 8 <= bytes.length; at += 8) {
        const one = isBigEndian ? bytes.readUInt32BE(at) : bytes.readUInt32LE(at);
        const other = isBigEndian ? bytes.readUInt32BE(at + 4) : bytes.readUInt32LE(at + 4);
        first = (first + one + second) >>> 0;
        second = (second + other + first) >>> 0;
      }
    },
    is: (one: number, other: number): boolean => first === one && second === other,
  };
}
