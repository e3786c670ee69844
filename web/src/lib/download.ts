/** Hands a file to the reader. */
export function download(name: string, content: BlobPart, type: string): void {
  const link = document.createElement('a');
  link.href = URL.createObjectURL(new Blob([content], { type }));
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 10_000);
}

/** Bytes from base64 text. */
export function bytes_of(base64: string): Uint8Array<ArrayBuffer> {
  return Uint8Array.from(atob(base64), (one) => one.charCodeAt(0));
}
