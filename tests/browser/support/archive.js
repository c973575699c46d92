// The archive's format, written a second time from its description: a JSON envelope with a checksum
// over every text in it.

/** FNV-1a with 64 bits; its constants are those of IETF draft-eastlake-fnv. */
const OFFSET = 0xcbf29ce484222325n;
const PRIME = 0x100000001b3n;
const MASK = (1n << 64n) - 1n;

/** The archive with its contents changed by `edit` and its checksum made good again. */
export function edited(text, edit) {
  const archive = JSON.parse(text);
  edit(archive.contents);
  archive.checksum = checksum(archive.contents);
  return JSON.stringify(archive);
}

/** What an archive holds, without when it was written. */
export function contentsOf(text) {
  const { written_ms: _, ...rest } = JSON.parse(text);
  return rest;
}

/** Whether our checksum is the one that the app wrote; if not, `edited` is worth nothing. */
export function isSound(text) {
  const archive = JSON.parse(text);
  return archive.checksum === checksum(archive.contents);
}

function checksum(contents) {
  let hash = OFFSET;
  const take = (text) => {
    const bytes = Buffer.from(text, "utf8");
    const length = Buffer.alloc(8);
    length.writeBigUInt64LE(BigInt(bytes.length));
    for (const byte of Buffer.concat([length, bytes])) {
      hash = ((hash ^ BigInt(byte)) * PRIME) & MASK;
    }
  };
  // The list of what was set aside is left out where it is empty.
  for (const list of [contents.formulas, contents.notes, contents.set_aside ?? []]) {
    take(String(list.length));
    for (const { key, text } of list) {
      take(key);
      take(text);
    }
  }
  for (const { key, entries } of contents.bakes) {
    take(key);
    take(String(entries.length));
    entries.forEach(take);
  }
  take(contents.kitchen ?? "");
  return hash.toString(16).padStart(16, "0");
}
