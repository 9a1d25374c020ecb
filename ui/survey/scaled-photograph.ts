import { MOST_PHOTOGRAPH_BYTES } from '#core/record/entry-line.ts';

/** A picture as it goes into the record, and how to show it. */
export interface ScaledPhotograph {
  readonly base64: string;
  readonly bytes: number;
  show(into: HTMLCanvasElement): void;
}

/** Longest sides that are tried, in pixels, and how fine; the first that is small enough is taken. */
const TRIED = [
  { most: 2048, quality: 0.85 },
  { most: 2048, quality: 0.7 },
  { most: 1600, quality: 0.7 },
  { most: 1280, quality: 0.6 },
  { most: 800, quality: 0.5 },
] as const;

/** The size of a picture whose longest side is at most so many pixels, never larger than it was. */
export function scaledSize(
  width: number,
  height: number,
  most: number,
): { width: number; height: number } {
  const factor = Math.min(1, most / Math.max(width, height));
  return {
    width: Math.max(1, Math.round(width * factor)),
    height: Math.max(1, Math.round(height * factor)),
  };
}

/** Base64 of bytes, piece by piece: a call with a million arguments is refused by browsers. */
export function base64Of(bytes: Uint8Array): string {
  const PIECE = 32_768;
  let text = '';
  for (let at = 0; at < bytes.length; at += PIECE)
    text += String.fromCharCode(...bytes.subarray(at, at + PIECE));
  return btoa(text);
}

/** Scales a picture to a JPEG of at most a megabyte. Throws where the browser cannot read it. */
export async function scaledPhotograph(file: Blob): Promise<ScaledPhotograph> {
  const picture = await createImageBitmap(file);
  for (const { most, quality } of TRIED) {
    const canvas = document.createElement('canvas');
    Object.assign(canvas, scaledSize(picture.width, picture.height, most));
    canvas.getContext('2d')?.drawImage(picture, 0, 0, canvas.width, canvas.height);
    const blob = await new Promise<Blob | null>((made) =>
      canvas.toBlob(made, 'image/jpeg', quality),
    );
    if (blob === null || blob.size > MOST_PHOTOGRAPH_BYTES) continue;
    return {
      base64: base64Of(new Uint8Array(await blob.arrayBuffer())),
      bytes: blob.size,
      show(into) {
        into.width = canvas.width;
        into.height = canvas.height;
        into.getContext('2d')?.drawImage(canvas, 0, 0);
      },
    };
  }
  throw new RangeError('no size was small enough');
}
