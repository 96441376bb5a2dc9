import type { Application, Judgement } from '../contract/material-fit.ts';
import { coldestC, FREEZING_C, ROOM_C } from './cold.ts';
import { judged, judgeGrade, notKnown } from './judged.ts';
import type { MaterialFacts } from './material-facts.ts';

/** Now and then wants fair, steady sliding wants good. */
export function judgeSliding(facts: MaterialFacts, { sliding }: Application): Judgement | null {
  if (sliding === 'none') return null;
  const asked = {
    demand: 'sliding',
    label: sliding === 'some' ? 'Slides now and then' : 'Slides steadily',
  } as const;
  const needed = sliding === 'some' ? 'fair' : 'good';
  return judgeGrade(
    asked,
    facts.slidingWear,
    needed,
    'Resistance to wear',
    'Grease it and look at it often.',
    facts.whyNotKnown.slidingWear,
  );
}

/** Clear or smooth wants good. */
export function judgeLooks(facts: MaterialFacts, { looks }: Application): Judgement | null {
  if (looks === 'any') return null;
  const isClear = looks === 'clear';
  const asked = { demand: 'looks', label: isClear ? 'See-through' : 'Smooth surface' } as const;
  return isClear
    ? judgeGrade(asked, facts.clarity, 'good', 'Clarity', 'Expect it milky: lines scatter light.')
    : judgeGrade(asked, facts.smoothing, 'good', 'Smoothing', 'Primer and paint hide the lines.');
}

/** Flexural modulus of what each word means, GPa: furniture, a clip, a hinge or strap, a seal. Our estimate. */
export const STIFFNESS_GPA = {
  rigid: { low: 1.5, high: Number.POSITIVE_INFINITY },
  springy: { low: 0.3, high: 2.2 },
  flexible: { low: 0.02, high: 0.4 },
  rubbery: { low: 0, high: 0.03 },
} as const;

const STIFFNESS_WORDS = {
  rigid: 'Rigid',
  springy: 'Springs like a clip',
  flexible: 'Bends like a strap',
  rubbery: 'Soft like rubber',
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
  if (!fact) return notKnown(asked, 'its stiffness');
  const band = STIFFNESS_GPA[stiffness];
  const { low, high } = fact.is;
  if (!Number.isFinite(high) && Number.isFinite(band.high))
    return notKnown(asked, 'how stiff the mixture is');
  const isInside = low >= band.low && high <= band.high;
  const isOutside = high < band.low || low > band.high;
  const coldC = coldestC(application);
  if (!isOutside && stiffness !== 'rigid' && coldC < FREEZING_C && isSoftInTheRoom(facts))
    return notKnown(asked, `how stiff it grows at ${coldC} °C`);
  const ends = [metTimes(low, band), metTimes(high, band)].filter(Number.isFinite);
  const span = !Number.isFinite(high) ? `At least ${low} GPa` : `${low} to ${high} GPa`;
  const wanted = Number.isFinite(band.high)
    ? band.low > 0
      ? `${band.low} to ${band.high} GPa`
      : `at most ${band.high} GPa`
    : `at least ${band.low} GPa`;
  const pick = !isInside && !isOutside ? ' It depends on grade, moisture and wall: choose by them.' : '';
  return judged(
    asked,
    isInside ? 'suits' : isOutside ? 'does-not-suit' : 'suits-with-limits',
    `${span} in bending${fact.words ? ` (${fact.words.replace(/\.$/, '')})` : ''}; wanted ${wanted}.${pick}`,
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
