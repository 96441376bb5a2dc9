import { checkJpeg } from '../../../src-core/photos/jpeg-check.ts';
import { MOST_PHOTOS_A_CASE } from '../../../src-core/contract/photo-limits.ts';
import type { CaseEvent } from '../../../src-core/contract/case-event.ts';
import type { LoggedEvent } from '../../../src-core/session/logged-event.ts';
import { refusals } from '../../../src-core/words/en/refusals.ts';
import type { Handler } from '../dispatcher.ts';
import type { ApplicationContext } from '../application-context.ts';
import { DomainError } from '../domain-error.ts';

export const photoKeep: Handler<'photo:keep'> = async ({ casebook, desk, now }, input, by) => {
  if (by.kind === 'device' && !desk.photos.take(by.deviceId, now().getTime()))
    throw new DomainError('refused', refusals.manyPhotos());
  const bytes = Buffer.from('bytes' in input ? input.bytes : Buffer.from(input.base64, 'base64'));
  const check = checkJpeg(bytes);
  if (!check.ok) throw new DomainError('bad-request', refusals.photoNotKept({ why: check.fault }));
  return { photo: await casebook.photos.keep(bytes) };
};

/** A log never names a photo that is not kept, nor more than an export can carry. */
export async function refuseUnfitPhoto(
  program: ApplicationContext,
  log: readonly LoggedEvent[],
  event: CaseEvent,
): Promise<void> {
  if (event.kind !== 'photographed') return;
  const there = log.filter((one) => one.event.kind === 'photographed').length;
  if (there >= MOST_PHOTOS_A_CASE)
    throw new DomainError('refused', refusals.mostPhotos({ most: MOST_PHOTOS_A_CASE }));
  if ((await program.casebook.photos.read(event.photo)) === null)
    throw new DomainError('refused', refusals.photoGone());
}
