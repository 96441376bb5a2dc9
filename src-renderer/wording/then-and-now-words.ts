import type { ThenAndNow } from '../../src-core/contract/then-and-now-view.ts';
import { nearestWord, strengthWords } from './strength-words.ts';
import { percent } from './format.ts';
import { asSentence } from './label-words.ts';

type Candidate = ThenAndNow['candidates'][number];
type GuideChange = NonNullable<ThenAndNow['changes']>[number];

/** Candidates that moved by less than this share show as unmoved. */
const AS_GOOD_AS_NOTHING = 0.005;

/** What a candidate did: "new among the first six", "no longer among the first six", "up from 3rd to 1st". */
export function movementWords({ then, now, placeThen, placeNow }: Candidate): string {
  if (placeThen === null) return 'new among the first six';
  if (placeNow === null) return 'no longer among the first six';
  if (placeThen !== placeNow)
    return `${placeNow < placeThen ? 'up' : 'down'} from ${ordinal(placeThen)} to ${ordinal(placeNow)}`;
  const moved = (now ?? 0) - (then ?? 0);
  if (Math.abs(moved) < AS_GOOD_AS_NOTHING) return 'as it was';
  return moved > 0 ? 'same place, likelier' : 'same place, less likely';
}

/** What a case would say today, in one sentence. */
export function conclusionWords({ then, candidates }: ThenAndNow): string {
  const first = (side: 'placeThen' | 'placeNow') => candidates.find((one) => one[side] === 1);
  const [was, is] = [first('placeThen'), first('placeNow')];
  if (then.from === 'not-known' || !was)
    return 'What this case concluded on that day was not kept, and the guide of that day is not to be had.';
  const before = `${was.label} stood first with ${percent(was.then ?? 0)}`;
  if (!is) return `${before}; today’s guide has no candidate.`;
  if (was.id !== is.id) return `${before}. Today ${is.label} would, with ${percent(is.now ?? 0)}.`;
  return Math.abs((is.now ?? 0) - (was.then ?? 0)) < AS_GOOD_AS_NOTHING
    ? `${before}, and would today.`
    : `${before}, and would today with ${percent(is.now ?? 0)}.`;
}

/** The remedy that would be offered first then and now. */
export function remedyWords({ then, now }: ThenAndNow): string | null {
  if (then.from === 'not-known') return null;
  const [was, is] = [then.remedy, now.remedy];
  if (was === null && is === null) return null;
  if (was?.id === is?.id) return `The remedy offered first is the same: ${is?.label ?? ''}.`;
  return `The remedy offered first was ${quoted(was?.label)}; today it would be ${quoted(is?.label)}.`;
}

/** What came next then and now. */
export function nextWords({ then, now }: ThenAndNow): string | null {
  if (!then.next || !now.next) return null;
  if (then.next.kind === now.next.kind && then.next.label === now.next.label)
    return `The next step is the same: ${now.next.label}.`;
  return `The next step was ${quoted(then.next.label)}; today it would be ${quoted(now.next.label)}.`;
}

/** Why they differ, as far as that can be told. */
export function whyWords(both: ThenAndNow): string {
  const { isOtherGuide, isOtherEngine, movedByEngine, movedByGuide, changes } = both;
  const parts = [
    isOtherGuide ? 'The guide has changed since' : '',
    isOtherEngine ? `${isOtherGuide ? 'and so have the sums' : 'The sums have changed since'}` : '',
  ].filter(Boolean);
  const what = parts.length > 0 ? `${parts.join(', ')}.` : '';
  const shares = [
    ...(movedByGuide === null ? [] : [{ through: 'the guide', by: movedByGuide }]),
    ...(movedByEngine === null || !isOtherEngine ? [] : [{ through: 'the sums', by: movedByEngine }]),
  ].map(
    ({ through, by }, at) =>
      `through ${through} alone ${at === 0 ? 'no candidate moved by more' : 'by no more'} than ${points(by)}`,
  );
  const moved = shares.length === 0 ? '' : ` ${asSentence(shares.join('; '))}.`;
  const unknown =
    isOtherGuide && changes === null
      ? ' What changed in the guide cannot be told: its files of that day are not to be had.'
      : isOtherGuide && changes?.length === 0
        ? ' Nothing that touches the findings and the first candidates of this case changed in it.'
        : '';
  return `${what}${moved}${unknown}`;
}

/** One change of the guide: "Wet filament → Popping: hardly ever, 2 %, now usually, 85 %". */
export function guideChangeWords({ kind, cause, observation, before, now }: GuideChange): string {
  switch (kind) {
    case 'new-cause':
      return `${cause}: the guide of that day did not have it`;
    case 'cause-gone':
      return `${cause}: today’s guide does not have it any more`;
    case 'prior':
      return `${cause}: of 100 such cases ${perHundred(before ?? 0)} came from it, now ${perHundred(now ?? 0)}`;
    case 'link': {
      const said = (one: number | null) => (one === null ? 'not known' : strengthWords(one));
      const link = `${cause} → ${observation ?? ''}`;
      if (before !== null && now !== null && nearestWord(before) === nearestWord(now))
        return `${link}: ${said(before)}, now ${said(now).replace(/^.*, /, '')}`;
      return `${link}: ${said(before)}; now ${said(now)}`;
    }
  }
}

function points(share: number): string {
  const rounded = Math.round(share * 100);
  return rounded === 0 ? 'half a percentage point' : `${rounded} percentage point${rounded === 1 ? '' : 's'}`;
}

function perHundred(share: number): string {
  const of = share * 100;
  return of >= 10 ? String(Math.round(of)) : String(Number(of.toPrecision(2)));
}

function quoted(label: string | undefined): string {
  return label === undefined ? 'none' : `“${label}”`;
}

function ordinal(place: number): string {
  return `${place}${['st', 'nd', 'rd'][place - 1] ?? 'th'}`;
}
