/** How to know that the bytes at hand are those that the build wrote. */

/** The first 22 characters (of 43) of the SHA-256 in base64; only in a secure context. */
export async function sha256(bytes: ArrayBuffer | Uint8Array): Promise<string> {
  const sum = new Uint8Array(await crypto.subtle.digest("SHA-256", bytes as BufferSource));
  return btoa(String.fromCharCode(...sum)).slice(0, 22);
}

/** The polynomial of the CRC-32 of zip and gzip (RFC 1952), its bits reversed. */
const POLYNOMIAL = 0xedb88320;

function crcTable(): Uint32Array {
  return Uint32Array.from({ length: 256 }, (_, byte) => {
    let value = byte;
    for (let bit = 0; bit < 8; bit += 1) value = (value >>> 1) ^ (value & 1 ? POLYNOMIAL : 0);
    return value;
  });
}

/** The CRC-32 of `bytes`: finds damage, where nothing against intent is to be had. */
export function crc32(bytes: Uint8Array): number {
  const table = crcTable();
  let crc = 0xffffffff;
  for (const byte of bytes) crc = (crc >>> 8) ^ table[(crc ^ byte) & 0xff]!;
  return (crc ^ 0xffffffff) >>> 0;
}

/** What the build writes of a file's content. */
export interface Mark {
  /** The number of bytes. */
  length: number;
  digest: string;
  crc: number;
}

/** Whether `bytes` are the content that `mark` was made of. */
export async function isWhole(bytes: Uint8Array, mark: Mark): Promise<boolean> {
  if (bytes.byteLength !== mark.length) return false;
  // Over plain http, as in a yard's own network, browsers work out no digests.
  if (!globalThis.crypto?.subtle) return crc32(bytes) === mark.crc;
  return (await sha256(bytes)) === mark.digest;
}
