import type { Words } from '../../src-core/words/message.ts';
import type { ThenAndNow } from '../../src-core/contract/then-and-now-view.ts';
import { nearestWord, shareOfStrength, strengthWords } from './strength-words.ts';
import { percent } from './format.ts';
import { sentences } from '../messages/lists.ts';
import { m } from '../messages/en/then-and-now-words.ts';

type Candidate = ThenAndNow['candidates'][number];
type GuideChange = NonNullable<ThenAndNow['changes']>[number];

/** Candidates that moved by less than this share show as unmoved. */
const AS_GOOD_AS_NOTHING = 0.005;

/** What a candidate did: "new among the first six", "no longer among the first six", "up from 3rd to 1st". */
export function movementWords({ then, now, placeThen, placeNow }: Candidate): string {
  if (placeThen === null) return m.newAmongTheFirstSix();
  if (placeNow === null) return m.noLongerAmongTheFirstSix();
  if (placeThen !== placeNow)
    return placeNow < placeThen
      ? m.upFromTo({ then: m.place({ place: placeThen }), now: m.place({ place: placeNow }) })
      : m.downFromTo({ then: m.place({ place: placeThen }), now: m.place({ place: placeNow }) });
  const moved = (now ?? 0) - (then ?? 0);
  if (Math.abs(moved) < AS_GOOD_AS_NOTHING) return m.asItWas();
  return moved > 0 ? m.samePlaceLikelier() : m.samePlaceLessLikely();
}

/** What a case would say today, in one sentence. */
export function conclusionWords({ then, candidates }: ThenAndNow): string {
  const first = (side: 'placeThen' | 'placeNow') => candidates.find((one) => one[side] === 1);
  const [was, is] = [first('placeThen'), first('placeNow')];
  if (then.from === 'not-known' || !was) return m.whatThisCaseConcludedOnThat();
  const before = m.stoodFirstWith({ was: was.label, percent: percent(was.then ?? 0) });
  if (!is) return m.todaysGuideHasNoCandidate({ before });
  if (was.id !== is.id) return m.todayWouldWith({ before, is: is.label, percent: percent(is.now ?? 0) });
  return Math.abs((is.now ?? 0) - (was.then ?? 0)) < AS_GOOD_AS_NOTHING
    ? m.andWouldToday({ before })
    : m.andWouldTodayWith({ before, percent: percent(is.now ?? 0) });
}

/** The remedy that would be offered first then and now. */
export function remedyWords({ then, now }: ThenAndNow): string | null {
  if (then.from === 'not-known') return null;
  const [was, is] = [then.remedy, now.remedy];
  if (was === null && is === null) return null;
  if (was?.id === is?.id) return m.theRemedyOfferedFirstIsThe({ is: is?.label ?? '' });
  return m.theRemedyOfferedFirstWasToday({ quoted: quoted(was?.label), quoted2: quoted(is?.label) });
}

/** What came next then and now. */
export function nextWords({ then, now }: ThenAndNow, say: (words: Words) => string): string | null {
  if (!then.next || !now.next) return null;
  const [was, is] = [say(then.next.label), say(now.next.label)];
  if (then.next.kind === now.next.kind && was === is) return m.theNextStepIsTheSame({ next: is });
  return m.theNextStepWasTodayIt({ quoted: quoted(was), quoted2: quoted(is) });
}

/** Why they differ, as far as that can be told. */
export function whyWords(both: ThenAndNow): string {
  const { isOtherGuide, isOtherEngine, movedByEngine, movedByGuide, changes } = both;
  const what = isOtherGuide
    ? isOtherEngine
      ? m.guideAndSumsHaveChanged()
      : m.theGuideHasChangedSince()
    : isOtherEngine
      ? m.theSumsHaveChangedSince()
      : '';
  const unknown =
    isOtherGuide && changes === null
      ? m.whatChangedInTheGuideCannot()
      : isOtherGuide && changes?.length === 0
        ? m.nothingThatTouchesTheFindingsAnd()
        : '';
  return sentences([what, movedWords(movedByGuide, isOtherEngine ? movedByEngine : null), unknown]);
}

function movedWords(byGuide: number | null, bySums: number | null): string {
  if (byGuide !== null && bySums !== null)
    return m.movedByGuideAndBySums({ guide: points(byGuide), sums: points(bySums) });
  if (byGuide !== null) return m.movedByGuide({ points: points(byGuide) });
  return bySums === null ? '' : m.movedBySums({ points: points(bySums) });
}

/** One change of the guide: "Wet filament → Popping: hardly ever, 2 %, now usually, 85 %". */
export function guideChangeWords({ kind, cause, observation, before, now }: GuideChange): string {
  switch (kind) {
    case 'new-cause':
      return m.theGuideOfThatDayDid({ cause });
    case 'cause-gone':
      return m.todaysGuideDoesNotHaveIt({ cause });
    case 'prior':
      return m.of100SuchCasesCameFrom({
        cause,
        perHundred: perHundred(before ?? 0),
        perHundred2: perHundred(now ?? 0),
      });
    case 'link': {
      const said = (one: number | null) => (one === null ? m.notKnown() : strengthWords(one));
      const link = `${cause} → ${observation ?? ''}`;
      if (before !== null && now !== null && nearestWord(before) === nearestWord(now))
        return m.now({ link, said: said(before), share: shareOfStrength(now) });
      return m.nowWithLinkSaid({ link, said: said(before), said2: said(now) });
    }
  }
}

function points(share: number): string {
  const rounded = Math.round(share * 100);
  return rounded === 0 ? m.halfAPercentagePoint() : m.percentagePointS({ rounded });
}

function perHundred(share: number): string {
  const of = share * 100;
  return of >= 10 ? String(Math.round(of)) : String(Number(of.toPrecision(2)));
}

function quoted(label: string | undefined): string {
  return label === undefined ? m.none() : m.quoted({ label });
}
