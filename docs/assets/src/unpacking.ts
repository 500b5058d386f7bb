/** What is in a gzipped file, and which response might have been smaller as one. */

export type Bytes = Uint8Array<ArrayBuffer>;

/** What is in `bytes`, gzipped or, where the server did it on the way, unpacked already. */
export async function unpacked(bytes: Bytes): Promise<Bytes> {
  if (bytes[0] !== 0x1f || bytes[1] !== 0x8b) return bytes;
  const stream = new DecompressionStream("gzip");
  // Fed through its writer, because some browsers cannot stream a Blob from a file page.
  const writer = stream.writable.getWriter();
  // What is wrong with the bytes shows where they are read.
  writer.write(bytes).then(() => writer.close()).catch(() => undefined);
  return new Uint8Array(await new Response(stream.readable).arrayBuffer());
}

/** What our service worker writes on all that it keeps. */
export const KEPT = "X-Kept";

/** Whether a host sends a response over the link as it is. */
export function isPlain(response: Response): boolean {
  return !response.headers.has("Content-Encoding") && !response.headers.has(KEPT);
}
