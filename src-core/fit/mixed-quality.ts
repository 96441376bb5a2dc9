import type { Mixture } from '../knowledge/service-schema.ts';
import { gradeWords, stepsOver, type Graded } from './grade.ts';
import { provenanceOf, type Fact } from './material-facts.ts';

/** What is known of a mixture in one respect, or why it is not. */
export interface Mixed {
  readonly fact: Fact<Graded> | null;
  readonly why: string | null;
}

/**
 * A polymer's grade with a filler in it: no better than the filler allows. Where the guide does not say what the filler does,
 * or says that it depends, the grade is not known, unless the polymer alone is poor: a filler does not make up for that.
 * `name` is the filler's, `where` says where it matters: "in the light".
 */
export function mixedQuality(
  polymer: Fact<Graded> | null,
  mixed: Mixture['ultraviolet'],
  name: string,
  where: string,
): Mixed {
  if (!polymer) return { fact: null, why: null };
  if (mixed && 'atMost' in mixed) {
    const note = mixed.note ? `: ${mixed.note.charAt(0).toLowerCase()}${mixed.note.slice(1)}` : '';
    if (stepsOver(mixed.atMost, polymer.is.grade) <= 0)
      return {
        fact: said(polymer, note === '' ? `${name} does not change that` : `${name}${note}`),
        why: null,
      };
    const is = { ...polymer.is, grade: mixed.atMost };
    const words = `${gradeWords(mixed.atMost)} with ${name}${note}`;
    return { fact: { is, words, ...provenanceOf(mixed) }, why: null };
  }
  if (polymer.is.grade === 'poor')
    return { fact: said(polymer, `${name} does not make up for that`), why: null };
  const why = mixed ? mixed.dependsOn : `the guide does not say what ${name} does ${where}`;
  return { fact: null, why };
}

function said(fact: Fact<Graded>, also: string): Fact<Graded> {
  return { ...fact, words: `${fact.words.replace(/\.$/, '')}; ${also}` };
}
