import { strengthProbability, WORDED_SCALE, type ScaleWord } from '../../src-core/words/worded-scale.ts';
import type { Guide } from '../../src-core/contract/guide-view.ts';
import { series } from '../messages/lists.ts';
import { m } from '../messages/en/strength-words.ts';

type Observation = Guide['observations'][number];
export type LinkStrength = Guide['mechanisms'][number]['shows'][number]['strength'];

/** What each word of the scale is called on screens. */
export const SCALE_WORDS: Readonly<Record<ScaleWord, string>> = {
  always: m.always(),
  'nearly always': m.nearlyAlways(),
  usually: m.usually(),
  often: m.often(),
  'about half': m.aboutHalf(),
  sometimes: m.sometimes(),
  seldom: m.seldom(),
  rarely: m.rarely(),
  'hardly ever': m.hardlyEver(),
};

/** The word of the scale nearest to a probability. */
export function nearestWord(probability: number): ScaleWord {
  const words = Object.entries(WORDED_SCALE) as [ScaleWord, number][];
  return words.reduce((best, one) =>
    Math.abs(one[1] - probability) < Math.abs(best[1] - probability) ? one : best,
  )[0];
}

/** "usually, 85 %"; a figure that lies between words takes the nearest one. */
export function strengthWords(strength: ScaleWord | number): string {
  const word = typeof strength === 'number' ? nearestWord(strength) : strength;
  return m.wordAndShare({ word: SCALE_WORDS[word], share: shareOfStrength(strength) });
}

/** The share in it alone: "85 %". */
export function shareOfStrength(strength: ScaleWord | number): string {
  return percentOf(strengthProbability(strength));
}

/** A link's strength in words, level by level: "at least slight: usually, 85 %; heavy: about half, 50 %". */
export function linkWords(strength: LinkStrength, observation: Observation | undefined): string {
  if (typeof strength !== 'object') return strengthWords(strength);
  const levels = observation?.grades ?? observation?.measure?.bands ?? [];
  const order = (id: string) => levels.findIndex((one) => one.id === id);
  const inOrder = Object.entries(strength).toSorted(([a], [b]) => order(a) - order(b));
  return series(
    inOrder.map(([id, each]) => {
      const label = (levels.find((one) => one.id === id)?.label ?? id).toLowerCase();
      const isOpenAbove = observation?.measure === undefined && order(id) < levels.length - 1;
      return isOpenAbove
        ? m.atLeast({ label, strength: strengthWords(each) })
        : m.atLevel({ label, strength: strengthWords(each) });
    }),
  );
}

/** With a space that does not break, since it stands in narrow columns. */
function percentOf(probability: number): string {
  const percent = Math.round(probability * 1000) / 10;
  return `${percent < 10 ? percent : Math.round(percent)}\u00a0%`;
}
