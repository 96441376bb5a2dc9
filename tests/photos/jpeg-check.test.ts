import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { checkJpeg } from '../../src-core/photos/jpeg-check.ts';
import { fittingSize } from '../../src-renderer/photos/shrink-photo.ts';
import { jpeg } from './jpeg.ts';
import { inEnglish } from '../../src-core/words/in-english.ts';

const faultOf = (bytes: Uint8Array) => {
  const check = checkJpeg(bytes);
  return check.ok ? null : inEnglish(check.fault);
};

describe('what counts as a photo', () => {
  it('is told by its markers, with its size', () => {
    expect(checkJpeg(jpeg(1600, 900))).toEqual({ ok: true, widthPx: 1600, heightPx: 900 });
    expect(checkJpeg(jpeg(900, 1600))).toEqual({ ok: true, widthPx: 900, heightPx: 1600 });
  });

  it.each([
    ['another kind of picture', Buffer.from('89504e470d0a1a0a0000000d49484452', 'hex'), /no JPEG/],
    ['a page that calls itself a photo', Buffer.from('<script>alert(1)</script>'), /no JPEG/],
    ['nothing', Buffer.alloc(0), /no JPEG/],
    ['one cut short', jpeg().subarray(0, -6), /cut short/],
    ['one too wide', jpeg(1601, 100), /1600 px/],
    ['one too high', jpeg(100, 4000), /1600 px/],
    ['one without a size', jpeg(0, 100), /no size/],
    ['one with the place where it was taken', jpeg(640, 480, [0xff, 0xe1, 0, 4, 1, 2]), /where and when/],
    ['a segment longer than the file', jpeg(640, 480, [0xff, 0xe2, 0xff, 0xff]), /damaged/],
    ['no picture between its ends', Buffer.from('ffd8ffe000020000ffd9', 'hex'), /damaged|no picture/],
    [
      'one too large',
      Buffer.concat([jpeg().subarray(0, -2), Buffer.alloc(1_500_001), jpeg().subarray(-2)]),
      /1.5 MB/,
    ],
  ])('refuses %s', (_what, bytes, fault) => {
    expect(faultOf(bytes)).toMatch(fault);
  });

  it('comes to an end on whatever bytes', () => {
    fc.assert(
      fc.property(fc.uint8Array({ maxLength: 200 }), (middle) => {
        const check = checkJpeg(Uint8Array.from([0xff, 0xd8, ...middle, 0xff, 0xd9]));
        if (check.ok) expect(Math.max(check.widthPx, check.heightPx)).toBeLessThanOrEqual(1600);
      }),
    );
  });
});

it('a picture is made smaller in its shape, never larger', () => {
  expect(fittingSize(4000, 3000)).toEqual({ width: 1600, height: 1200 });
  expect(fittingSize(3000, 4000)).toEqual({ width: 1200, height: 1600 });
  expect(fittingSize(800, 600)).toEqual({ width: 800, height: 600 });
  expect(fittingSize(20_000, 3)).toEqual({ width: 1600, height: 1 });
});
