import { valueTexts } from '../words/en/values.ts';
import type { TrainingAction } from '../contract/training-view.ts';
import type { Knowledge } from '../knowledge/knowledge.ts';
import { levelOfFinding } from '../session/finding-level.ts';
import { causeLabel, observationLabel, remedyLabel, valueLabel } from '../session/wording.ts';
import type { PracticeStep } from './practice-run.ts';
import type { Words } from '../words/message.ts';

export function idOfAction(action: TrainingAction): string {
  return action.kind === 'check'
    ? action.observation
    : action.kind === 'remedy'
      ? action.remedy
      : action.cause;
}

export function labelOfAction(knowledge: Knowledge, action: TrainingAction): string {
  if (action.kind === 'check') return observationLabel(knowledge, action.observation);
  return action.kind === 'remedy'
    ? remedyLabel(knowledge, action.remedy)
    : causeLabel(knowledge, action.cause);
}

/** The guide's sheet that a step is about. */
export function sheetOf(action: TrainingAction): {
  readonly kind: 'observation' | 'remedy' | 'cause';
  readonly id: string;
} {
  const kinds = { check: 'observation', remedy: 'remedy', 'name-cause': 'cause' } as const;
  return { kind: kinds[action.kind], id: idOfAction(action) };
}

export function resultText(knowledge: Knowledge, { action, result }: PracticeStep): Words {
  if (action.kind === 'check') {
    const level = levelOfFinding(knowledge, action.observation, result);
    return level === 0 && result === 'absent'
      ? valueTexts.m.absent()
      : valueLabel(knowledge, action.observation, result);
  }
  if (action.kind === 'remedy')
    return result === 'cured'
      ? valueTexts.m.cured()
      : result === 'better'
        ? valueTexts.m.better()
        : valueTexts.m.notCured();
  return '';
}
