/** Pictures made small in the page, and sent with their bytes. */

const kSmall = 320;
const kQuality = 0.82;

/** At most 320 px in width and height, as a JPEG; null where the browser can not read the picture. */
export async function small_copy(file: Blob): Promise<Blob | null> {
  try {
    const picture = await createImageBitmap(file);
    const scale = Math.min(1, kSmall / Math.max(picture.width, picture.height));
    const canvas = document.createElement('canvas');
    canvas.width = Math.max(1, Math.round(picture.width * scale));
    canvas.height = Math.max(1, Math.round(picture.height * scale));
    canvas.getContext('2d')?.drawImage(picture, 0, 0, canvas.width, canvas.height);
    picture.close();
    return await new Promise((done) => canvas.toBlob(done, 'image/jpeg', kQuality));
  } catch {
    return null;
  }
}

export interface Stored {
  /** The document's name in the store. */
  name: string;
}

/** Sends bytes as they are; the program looks at what they are, and answers with the document's name. */
export async function store(file: Blob): Promise<{ status: number; body: { name?: string; errors?: { message: string; hint: string }[] } | null }> {
  const answer = await fetch('/api/files', { method: 'POST', credentials: 'same-origin', headers: { 'Content-Type': 'application/octet-stream' }, body: file });
  return { status: answer.status, body: await answer.json().catch(() => null) };
}
