import { MATERIAL_GRADES, type MaterialGrade } from '../knowledge/service-schema.ts';
import { fitTexts } from '../words/en/fit.ts';
import { type Message } from '../words/message.ts';

const { m } = fitTexts;

/** A grade out of the guide. */
export interface Graded {
  readonly grade: MaterialGrade;
  /** Holds only under the condition that its words name: "very good when moist". */
  readonly isConditional: boolean;
}

const PATTERN = /^(poor|fair|good|very good)\b(.*)$/s;

/**
 * The grade that the words of a sheet begin with: "good: bears oils" is good, "poor unless stabilised" is poor under a
 * condition. What follows a colon explains, anything else limits. Null where the words begin with no grade.
 */
export function gradeInWords(words: string): Graded | null {
  const found = PATTERN.exec(words.trim());
  const grade = MATERIAL_GRADES.find((one) => one === found?.[1]?.replace(' ', '-'));
  if (!grade) return null;
  const rest = found?.[2]?.trim() ?? '';
  return { grade, isConditional: rest !== '' && !rest.startsWith(':') };
}

/** Steps from the grade needed to the grade there is, on the scale poor, fair, good, very good. */
export function stepsOver(needed: MaterialGrade, grade: MaterialGrade): number {
  return MATERIAL_GRADES.indexOf(grade) - MATERIAL_GRADES.indexOf(needed);
}

/** The grade so many steps better (or, below 0, worse), held to the ends of the scale. */
export function shifted(graded: Graded, steps: number): Graded {
  const at = Math.max(0, Math.min(MATERIAL_GRADES.length - 1, MATERIAL_GRADES.indexOf(graded.grade) + steps));
  return { ...graded, grade: MATERIAL_GRADES[at] ?? graded.grade };
}

const GRADE_WORDS: Readonly<Record<MaterialGrade, Message>> = {
  poor: m.poor(),
  fair: m.fair(),
  good: m.good(),
  'very-good': m.veryGood(),
};

export function gradeWords(grade: MaterialGrade): Message {
  return GRADE_WORDS[grade];
}
