import type { FitVerdict } from '../contract/fit-verdicts.ts';
import type { Demand, FitMargin, Judgement } from '../contract/material-fit.ts';
import type { MaterialGrade } from '../knowledge/service-schema.ts';
import { gradeWords, stepsOver, type Graded } from './grade.ts';
import type { Fact } from './material-facts.ts';

export interface Asked {
  readonly demand: Demand;
  readonly label: string;
}

/** A judgement on something that the guide says nothing of: not known, and said so, with the reason where there is one. */
export function notKnown(asked: Asked, what: string, why?: string): Judgement {
  return {
    ...asked,
    verdict: 'not-known',
    reason: `Not known: ${why ?? `the guide says nothing of ${what}`}.`,
    margin: null,
    source: null,
    confidence: null,
  };
}

export function judged(
  asked: Asked,
  verdict: FitVerdict,
  reason: string,
  margin: FitMargin | null,
  fact: Pick<Fact<unknown>, 'source' | 'confidence'>,
): Judgement {
  return { ...asked, verdict, reason, margin, source: fact.source, confidence: fact.confidence };
}

/**
 * A grade against the grade needed: as good or better suits, one step short suits with limits, more does not. A grade
 * that holds only under a condition never suits without limits. `quality` names what is graded: "Resistance to creep"; `hint` is
 * what to do where it suits with limits; `why` is why the grade is not known.
 */
export function judgeGrade(
  asked: Asked,
  fact: Fact<Graded> | null,
  needed: MaterialGrade,
  quality: string,
  hint = '',
  why?: string,
): Judgement {
  if (!fact) return notKnown(asked, `its ${quality.charAt(0).toLowerCase()}${quality.slice(1)}`, why);
  const steps = stepsOver(needed, fact.is.grade);
  const verdict: FitVerdict =
    steps < -1 ? 'does-not-suit' : steps < 0 || fact.is.isConditional ? 'suits-with-limits' : 'suits';
  const need = steps < 0 ? ` Needed: ${gradeWords(needed)}.` : '';
  const advice = hint && verdict === 'suits-with-limits' ? ` ${hint}` : '';
  const reason = `${quality}: ${withStop(fact.words)}${need}${advice}`;
  return judged(asked, verdict, reason, { kind: 'grades', steps }, fact);
}

function withStop(words: string): string {
  return /[.!?]$/.test(words) ? words : `${words}.`;
}
