/** A picture as grey values, a byte each, as the program follows lines on it. */
export interface Grey {
  width: number;
  height: number;
  pixels: Uint8Array;
}

/** More would not be seen, and would be long on its way. */
export const kMostPixels = 1600;

/** Rec. 709 luma of each dot; what is transparent counts as paper. */
export function grey_of(rgba: Uint8ClampedArray, width: number, height: number): Grey {
  const pixels = new Uint8Array(width * height);
  for (let i = 0; i < pixels.length; i += 1) {
    const at = 4 * i;
    const share = (rgba[at + 3] ?? 255) / 255;
    const luma = 0.2126 * (rgba[at] ?? 0) + 0.7152 * (rgba[at + 1] ?? 0) + 0.0722 * (rgba[at + 2] ?? 0);
    pixels[i] = Math.round(share * luma + (1 - share) * 255);
  }
  return { width, height, pixels };
}

/** How much smaller a picture is shown and followed. */
export function reduction(width: number, height: number, most = kMostPixels): number {
  return Math.min(1, most / Math.max(width, height, 1));
}

export async function decode(file: Blob): Promise<{ grey: Grey; url: string } | null> {
  try {
    const picture = await createImageBitmap(file);
    const times = reduction(picture.width, picture.height);
    const canvas = document.createElement('canvas');
    canvas.width = Math.max(1, Math.round(picture.width * times));
    canvas.height = Math.max(1, Math.round(picture.height * times));
    const context = canvas.getContext('2d', { willReadFrequently: true });
    if (!context) return null;
    context.drawImage(picture, 0, 0, canvas.width, canvas.height);
    picture.close();
    const { data } = context.getImageData(0, 0, canvas.width, canvas.height);
    return { grey: grey_of(data, canvas.width, canvas.height), url: canvas.toDataURL('image/png') };
  } catch {
    return null;
  }
}
