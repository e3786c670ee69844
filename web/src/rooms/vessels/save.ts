/** Hands a drawing to the reader as a file. */
export function save_svg(picture: string, name: string): void {
  const link = document.createElement('a');
  link.href = URL.createObjectURL(new Blob([picture], { type: 'image/svg+xml' }));
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 10_000);
}
