import type { FitVerdict } from '../contract/fit-verdicts.ts';
import type { Demand, FitMargin, Judgement } from '../contract/material-fit.ts';
import type { MaterialGrade } from '../knowledge/service-schema.ts';
import { gradeWords, stepsOver, type Graded } from './grade.ts';
import { stopless, type Fact, type FactWords } from './material-facts.ts';
import { fitTexts } from '../words/en/fit.ts';
import { type Message } from '../words/message.ts';

const { m } = fitTexts;

export interface Asked {
  readonly demand: Demand;
  readonly label: Message;
}

/** What is graded, at the beginning of a sentence and within one. */
export interface Quality {
  readonly name: Message;
  readonly its: Message;
}

/** A judgement on something that the guide says nothing of: not known, and said so, with the reason where there is one. */
export function notKnown(asked: Asked, what: Message, why?: FactWords): Judgement {
  return {
    ...asked,
    verdict: 'not-known',
    reason: [m.notKnown({ why: why === undefined ? m.guideSilent({ what }) : stopless(why) })],
    margin: null,
    source: null,
    confidence: null,
  };
}

export function judged(
  asked: Asked,
  verdict: FitVerdict,
  reason: readonly Message[],
  margin: FitMargin | null,
  fact: Pick<Fact<unknown>, 'source' | 'confidence'>,
): Judgement {
  return { ...asked, verdict, reason, margin, source: fact.source, confidence: fact.confidence };
}

/**
 * A grade against the grade needed: as good or better suits, one step short suits with limits, more does not. A grade
 * that holds only under a condition never suits without limits. `hint` is what to do where it suits with limits; `why` is why the grade is not known.
 */
export function judgeGrade(
  asked: Asked,
  fact: Fact<Graded> | null,
  needed: MaterialGrade,
  quality: Quality,
  hint?: Message,
  why?: FactWords,
): Judgement {
  if (!fact) return notKnown(asked, quality.its, why);
  const steps = stepsOver(needed, fact.is.grade);
  const verdict: FitVerdict =
    steps < -1 ? 'does-not-suit' : steps < 0 || fact.is.isConditional ? 'suits-with-limits' : 'suits';
  const reason = [
    graded({ quality: quality.name, words: fact.words }),
    ...(steps < 0 ? [m.needed({ grade: gradeWords(needed) })] : []),
    ...(hint && verdict === 'suits-with-limits' ? [hint] : []),
  ];
  return judged(asked, verdict, reason, { kind: 'grades', steps }, fact);
}

function graded(said: { readonly quality: Message; readonly words: FactWords }): Message {
  const hasStop = typeof said.words === 'string' && /[.!?]$/.test(said.words);
  return hasStop ? m.gradedWithStop(said) : m.graded(said);
}
