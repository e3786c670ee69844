/** Bytes as RFC 4648 base64. */
export function base64_of(bytes: Uint8Array): string {
  let text = '';
  const kChunk = 0x8000;
  for (let at = 0; at < bytes.length; at += kChunk) text += String.fromCharCode(...bytes.subarray(at, at + kChunk));
  return btoa(text);
}
