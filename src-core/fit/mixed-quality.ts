import type { Mixture } from '../knowledge/service-schema.ts';
import { gradeWords, stepsOver, type Graded } from './grade.ts';
import { lowered, provenanceOf, stopless, type Fact, type FactWords } from './material-facts.ts';
import { fitTexts } from '../words/en/fit.ts';
import { type Message } from '../words/message.ts';

const { m } = fitTexts;

/** What is known of a mixture in one respect, or why it is not. */
export interface Mixed {
  readonly fact: Fact<Graded> | null;
  readonly why: FactWords | null;
}

/**
 * A polymer's grade with a filler in it: no better than the filler allows. Where the guide does not say what the filler does,
 * or says that it depends, the grade is not known, unless the polymer alone is poor: a filler does not make up for that.
 * `filler` is its name; `notSaid` says where the guide is silent.
 */
export function mixedQuality(
  polymer: Fact<Graded> | null,
  mixed: Mixture['ultraviolet'],
  filler: string,
  notSaid: Message,
): Mixed {
  if (!polymer) return { fact: null, why: null };
  if (mixed && 'atMost' in mixed) {
    const note = mixed.note && lowered(mixed.note);
    const said = stopless(polymer.words);
    if (stepsOver(mixed.atMost, polymer.is.grade) <= 0)
      return {
        fact: {
          ...polymer,
          words: note ? m.fillerWithNote({ said, filler, note }) : m.doesNotChange({ said, filler }),
        },
        why: null,
      };
    const is = { ...polymer.is, grade: mixed.atMost };
    const grade = gradeWords(mixed.atMost);
    const words = note
      ? m.gradeWithFillerNoted({ grade, filler, note })
      : m.gradeWithFiller({ grade, filler });
    return { fact: { is, words, ...provenanceOf(mixed) }, why: null };
  }
  if (polymer.is.grade === 'poor')
    return {
      fact: { ...polymer, words: m.doesNotMakeUp({ said: stopless(polymer.words), filler }) },
      why: null,
    };
  const why = mixed ? mixed.dependsOn : notSaid;
  return { fact: null, why };
}
