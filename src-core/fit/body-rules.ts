import type { Application, Judgement } from '../contract/material-fit.ts';
import { coldestC, FREEZING_C, ROOM_C } from './cold.ts';
import { judged, judgeGrade, notKnown } from './judged.ts';
import { stopless, type Fact, type MaterialFacts, type Span } from './material-facts.ts';
import { fitTexts } from '../words/en/fit.ts';
import { celsius, type Message } from '../words/message.ts';

const { m } = fitTexts;

/** Now and then wants fair, steady sliding wants good. */
export function judgeSliding(facts: MaterialFacts, { sliding }: Application): Judgement | null {
  if (sliding === 'none') return null;
  const asked = {
    demand: 'sliding',
    label: sliding === 'some' ? m.slidesNowAndThen() : m.slidesSteadily(),
  } as const;
  const needed = sliding === 'some' ? 'fair' : 'good';
  return judgeGrade(
    asked,
    facts.slidingWear,
    needed,
    { name: m.wear(), its: m.itsWear() },
    m.greaseIt(),
    facts.whyNotKnown.slidingWear,
  );
}

/** Clear or smooth wants good. */
export function judgeLooks(facts: MaterialFacts, { looks }: Application): Judgement | null {
  if (looks === 'any') return null;
  const isClear = looks === 'clear';
  const asked = { demand: 'looks', label: isClear ? m.seeThrough() : m.smoothSurface() } as const;
  return isClear
    ? judgeGrade(asked, facts.clarity, 'good', { name: m.clarity(), its: m.itsClarity() }, m.expectMilky())
    : judgeGrade(
        asked,
        facts.smoothing,
        'good',
        { name: m.smoothing(), its: m.itsSmoothing() },
        m.primerHides(),
      );
}

/** Flexural modulus of what each word means, GPa: furniture, a clip, a hinge or strap, a seal. Our estimate. */
export const STIFFNESS_GPA = {
  rigid: { low: 1.5, high: Number.POSITIVE_INFINITY },
  springy: { low: 0.3, high: 2.2 },
  flexible: { low: 0.02, high: 0.4 },
  rubbery: { low: 0, high: 0.03 },
} as const;

const STIFFNESS_WORDS = {
  rigid: m.rigid(),
  springy: m.springy(),
  flexible: m.flexible(),
  rubbery: m.rubbery(),
} as const;

/**
 * Flexural modulus against the band of the word: all inside suits, partly inside suits with limits, all outside does not.
 * The figures are for the room, so what would do there but stiffens in frost is not known there.
 * The margin says how many times the nearer end of the band is met, for the worse and the better end of the material.
 */
export function judgeStiffness(facts: MaterialFacts, application: Application): Judgement | null {
  const { stiffness } = application;
  if (stiffness === 'any') return null;
  const asked = { demand: 'stiffness', label: STIFFNESS_WORDS[stiffness] } as const;
  const fact = facts.flexuralModulusGPa;
  if (!fact) return notKnown(asked, m.itsStiffness());
  const band = STIFFNESS_GPA[stiffness];
  const { low, high } = fact.is;
  if (!Number.isFinite(high) && Number.isFinite(band.high)) return notKnown(asked, m.howStiffMixture());
  const isInside = low >= band.low && high <= band.high;
  const isOutside = high < band.low || low > band.high;
  const coldC = coldestC(application);
  if (!isOutside && stiffness !== 'rigid' && coldC < FREEZING_C && isSoftInTheRoom(facts))
    return notKnown(asked, m.howStiffInCold({ temperature: celsius(coldC) }));
  const ends = [metTimes(low, band), metTimes(high, band)].filter(Number.isFinite);
  const wanted = Number.isFinite(band.high)
    ? band.low > 0
      ? m.gpaFromTo({ low: band.low, high: band.high })
      : m.atMostGpa({ gpa: band.high })
    : m.atLeastGpa({ gpa: band.low });
  const pick = !isInside && !isOutside ? [m.chooseByGrade()] : [];
  return judged(
    asked,
    isInside ? 'suits' : isOutside ? 'does-not-suit' : 'suits-with-limits',
    [bends(fact, wanted), ...pick],
    ends.length > 0 ? { kind: 'times', low: Math.min(...ends), high: Math.max(...ends) } : null,
    fact,
  );
}

/** What is above its glass transition at room temperature stiffens in the cold. */
function isSoftInTheRoom({ glassTransitionC }: MaterialFacts): boolean {
  return glassTransitionC !== null && glassTransitionC.is.low < ROOM_C;
}

/** How many times the nearer limit is met: 1 and more inside the band, below 1 outside it. */
function metTimes(modulus: number, band: { readonly low: number; readonly high: number }): number {
  return Math.min(band.low > 0 ? modulus / band.low : Number.POSITIVE_INFINITY, band.high / modulus);
}

function bends({ is: { low, high }, words }: Fact<Span>, wanted: Message): Message {
  const note = stopless(words);
  if (Number.isFinite(high))
    return note === '' ? m.bends({ low, high, wanted }) : m.bendsNoted({ low, high, note, wanted });
  return note === '' ? m.bendsAtLeast({ low, wanted }) : m.bendsAtLeastNoted({ low, note, wanted });
}
