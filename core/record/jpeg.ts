import { MOST_PHOTOGRAPH_BYTES } from './entry-line.ts';

/** Of either side: what a screen scales to is a third of it. */
const MOST_PIXELS = 6000;
const START_OF_IMAGE = 0xd8;
const START_OF_SCAN = 0xda;
/** Markers that stand alone, without a length: those of restarts. */
const isAlone = (marker: number) => marker >= 0xd0 && marker <= 0xd7;
/** Frames of any coding; 0xc4, 0xc8 and 0xcc are tables. ITU-T T.81, table B.1. */
const isFrame = (marker: number) =>
  marker >= 0xc0 && marker <= 0xcf && marker !== 0xc4 && marker !== 0xc8 && marker !== 0xcc;

/**
 * Why bytes are no JPEG that is kept, or null. Looks at the markers only (ITU-T T.81, annex B): the
 * frame's size, and that there is a scan after it.
 */
export function jpegRefusal(bytes: Uint8Array): string | null {
  if (bytes.length > MOST_PHOTOGRAPH_BYTES)
    return `${bytes.length} bytes, at most ${MOST_PHOTOGRAPH_BYTES}`;
  if (bytes[0] !== 0xff || bytes[1] !== START_OF_IMAGE) return 'it does not begin as a JPEG does';
  let at = 2;
  let sized = false;
  while (at + 4 <= bytes.length) {
    if (bytes[at] !== 0xff) return `no marker at byte ${at}`;
    const marker = bytes[at + 1]!;
    if (marker === 0xff || isAlone(marker)) {
      at += marker === 0xff ? 1 : 2;
      continue;
    }
    const length = bytes[at + 2]! * 256 + bytes[at + 3]!;
    if (length < 2 || at + 2 + length > bytes.length) return `a segment cut short at byte ${at}`;
    if (isFrame(marker)) {
      const refusal = sizeRefusal(bytes.subarray(at + 4, at + 2 + length));
      if (refusal !== null) return refusal;
      sized = true;
    }
    if (marker === START_OF_SCAN) return sized ? null : 'a scan before its frame';
    at += 2 + length;
  }
  return 'it has no picture in it';
}

function sizeRefusal(frame: Uint8Array): string | null {
  if (frame.length < 5) return 'a frame cut short';
  const height = frame[1]! * 256 + frame[2]!;
  const width = frame[3]! * 256 + frame[4]!;
  if (height < 1 || width < 1 || height > MOST_PIXELS || width > MOST_PIXELS)
    return `${width} by ${height} pixels, at most ${MOST_PIXELS} either way`;
  return null;
}
