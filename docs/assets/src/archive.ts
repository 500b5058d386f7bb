/** Reading a zip whose members are stored as they are; the build makes no other kind. */

export interface Member {
  path: string;
  bytes: Uint8Array;
}

const END_OF_DIRECTORY = 0x06054b50;
const DIRECTORY_ENTRY = 0x02014b50;
const END_LENGTH = 22;

/** Return the files in a stored zip without copying their bytes. */
export function storedMembers(zip: Uint8Array): Member[] {
  const view = new DataView(zip.buffer, zip.byteOffset, zip.byteLength);
  const end = zip.byteLength - END_LENGTH;
  if (end < 0 || view.getUint32(end, true) !== END_OF_DIRECTORY) {
    throw new Error("The calculation package is damaged: it has no directory.");
  }
  const count = view.getUint16(end + 10, true);
  const text = new TextDecoder();
  const members: Member[] = [];
  let at = view.getUint32(end + 16, true);
  for (let n = 0; n < count; n += 1) {
    if (view.getUint32(at, true) !== DIRECTORY_ENTRY || view.getUint16(at + 10, true) !== 0) {
      throw new Error("The calculation package is damaged: a member is not stored plainly.");
    }
    const size = view.getUint32(at + 24, true);
    const nameLength = view.getUint16(at + 28, true);
    const skip = nameLength + view.getUint16(at + 30, true) + view.getUint16(at + 32, true);
    const local = view.getUint32(at + 42, true);
    const start = local + 30 + view.getUint16(local + 26, true) + view.getUint16(local + 28, true);
    const path = text.decode(zip.subarray(at + 46, at + 46 + nameLength));
    if (!path.endsWith("/")) {
      members.push({ path, bytes: zip.subarray(start, start + size) });
    }
    at += 46 + skip;
  }
  return members;
}
