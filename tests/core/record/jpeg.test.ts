import { expect, test } from 'vitest';
import { jpegRefusal } from '#core/record/jpeg.ts';
import { SMALL_JPEG } from '../../support/small-jpeg.ts';

const picture = () => Uint8Array.from(Buffer.from(SMALL_JPEG, 'base64'));

test('a picture of an encoder is one', () => {
  expect(jpegRefusal(picture())).toBeNull();
});

test('what is none says why', () => {
  expect(jpegRefusal(new TextEncoder().encode('<svg onload=1>'))).toMatch(/does not begin/);
  expect(jpegRefusal(picture().subarray(0, 40))).toMatch(/cut short|no picture/);
  expect(jpegRefusal(new Uint8Array(1024 * 1024 + 1))).toMatch(/at most 1048576/);
});

test('a frame of more pixels than anybody looks at is refused', () => {
  const wide = picture();
  const frame = wide.findIndex((byte, at) => byte === 0xff && wide[at + 1] === 0xc0);
  wide[frame + 7] = 0xff;
  expect(jpegRefusal(wide)).toMatch(/65288 by 8 pixels/);
});
