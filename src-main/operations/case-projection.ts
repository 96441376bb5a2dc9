import { eventWords } from '../../src-core/session/event-words.ts';
import { inEnglish } from '../../src-core/words/in-english.ts';
import { CAUSE_NOT_IN_GUIDE } from '../../src-core/knowledge/compile.ts';
import type { Knowledge } from '../../src-core/knowledge/knowledge.ts';
import type { CaseMoment } from '../../src-core/session/case-flow.ts';
import type { LoggedEvent } from '../../src-core/session/logged-event.ts';
import {
  causeLabel,
  conditionValueLabel,
  confirmedCauseLabel,
  observationLabel,
} from '../../src-core/session/wording.ts';
import type { CaseCause } from '../casebook/case.repository.ts';
import type { NewCaseRecord } from '../casebook/tables.ts';

export interface CaseProjection {
  readonly record: Omit<NewCaseRecord, 'number'>;
  readonly causes: readonly CaseCause[];
}

/** The row that lists show for a case, worked out from its log. `topCause` is the first candidate while it is open. */
export function projectCase(parts: {
  readonly caseId: string;
  readonly knowledge: Knowledge;
  readonly log: readonly LoggedEvent[];
  readonly moment: CaseMoment;
  readonly topCause: string | null;
  readonly engineVersion: string;
  readonly isDemo: boolean;
}): CaseProjection {
  const { caseId, knowledge, log, moment, topCause, engineVersion, isDemo } = parts;
  const { context, state } = moment;
  const intake = context.intake;
  const complaint = (intake?.complaints ?? [])
    .map(({ observation }) => observationLabel(knowledge, observation))
    .join(', ');
  // A case that leads to another counts there, once: it has no causes and has cost nothing of its own.
  const closing = context.mergedInto ? null : context.closing;
  const causes = (closing?.causes ?? []).map((one) =>
    'cause' in one
      ? { cause: one.cause, label: causeLabel(knowledge, one.cause), isNamedByHand: false }
      : { cause: CAUSE_NOT_IN_GUIDE, label: confirmedCauseLabel(knowledge, one), isNamedByHand: true },
  );
  const cause =
    causes.length > 0
      ? causes.map((one) => one.label).join(' and ')
      : topCause === null
        ? ''
        : causeLabel(knowledge, topCause);
  const closedAt =
    state === 'closed' && !context.mergedInto
      ? (log.findLast(({ event }) => event.kind === 'closed')?.at ?? null)
      : null;
  return {
    record: {
      id: caseId,
      state: context.mergedInto ? 'merged' : state,
      revision: log.length,
      opened_at: log[0]?.at ?? '',
      closed_at: closedAt,
      printer_id: intake?.printerId ?? null,
      spool_id: intake?.spoolId ?? null,
      opened_by: intake?.openedBy ?? null,
      complaint,
      cause_label: cause,
      is_confirmed: causes.length > 0 ? 1 : 0,
      practice: closing?.practice ?? null,
      minutes_lost: closing?.minutesLost ?? 0,
      grams_scrapped: closing?.gramsScrapped ?? 0,
      search_text: [
        complaint,
        cause,
        intake?.words ?? '',
        intake?.openedBy ?? '',
        intake?.profile ?? '',
        ...(intake?.files ?? []),
        closing?.note ?? '',
        ...Object.entries(context.conditions).map(([id, value]) =>
          inEnglish(conditionValueLabel(knowledge, id, value)),
        ),
        ...context.tags,
        // A tag that was taken off must not be found any more.
        ...log
          .filter(({ event }) => event.kind !== 'tagged')
          .map(({ event }) => inEnglish(eventWords(knowledge, event))),
      ]
        .join(' ')
        .toLowerCase(),
      knowledge_version: knowledge.version,
      engine_version: engineVersion,
      is_demo: isDemo ? 1 : 0,
      merged_into: context.mergedInto?.caseId ?? null,
      came_from: context.cameFrom?.caseId ?? null,
      profile: intake?.profile ?? '',
      tags_json: JSON.stringify(context.tags),
    },
    causes,
  };
}
