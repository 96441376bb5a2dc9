import { LARGEST_PHOTO_BYTES, LONGEST_SIDE_PX } from '../../src-core/contract/photo-limits.ts';
import { m } from '../messages/en/photos.ts';

/** First good, then smaller: most photos pass with the first. */
const QUALITIES = [0.82, 0.7, 0.55];

/** Width and height that fit the limit in the same shape; a small picture stays as it is. */
export function fittingSize(width: number, height: number): { width: number; height: number } {
  const scale = Math.min(1, LONGEST_SIDE_PX / Math.max(width, height));
  return { width: Math.max(1, Math.round(width * scale)), height: Math.max(1, Math.round(height * scale)) };
}

/**
 * A picture as the casebook takes it: drawn anew, upright, with a long side of 1600 px at most, as JPEG. Drawing it
 * anew leaves out where and by whom it was taken. Throws in words where it cannot be read.
 */
export async function shrinkPhoto(file: Blob): Promise<Uint8Array<ArrayBuffer>> {
  const picture = await createImageBitmap(file, { imageOrientation: 'from-image' }).catch(() => {
    throw new Error(m.thisBrowserCannotReadThatPicture());
  });
  const canvas = document.createElement('canvas');
  Object.assign(canvas, fittingSize(picture.width, picture.height));
  const context = canvas.getContext('2d');
  if (!context) throw new Error(m.thisBrowserCannotMakeThePicture());
  // What was see-through becomes paper, not black.
  context.fillStyle = 'white';
  context.fillRect(0, 0, canvas.width, canvas.height);
  context.drawImage(picture, 0, 0, canvas.width, canvas.height);
  picture.close();
  for (const quality of QUALITIES) {
    const jpeg = await new Promise<Blob | null>((resolve) => canvas.toBlob(resolve, 'image/jpeg', quality));
    if (jpeg && jpeg.size <= LARGEST_PHOTO_BYTES) return new Uint8Array(await jpeg.arrayBuffer());
  }
  throw new Error(m.thePictureStaysTooLargeHowever());
}
