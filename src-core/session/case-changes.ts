import type { CaseEvent } from '../contract/case-event.ts';
import { MOST_TAGS } from '../contract/tag-limits.ts';
import type { CaseContext } from './case-context.ts';
import { withTags } from './tags.ts';

type Of<K extends CaseEvent['kind']> = Extract<CaseEvent, { kind: K }>;
type Change = Partial<CaseContext>;

/** What each event changes of what is known. Pure; the machine says when it may happen. */

export function opened({ intake }: Of<'opened'>): Change {
  return {
    intake,
    conditions: { ...intake.conditions },
    tried: [...(intake.tried ?? [])],
    // What was said to be wrong wins over what a file shows of it.
    findings: Object.fromEntries(
      [...(intake.measured ?? []), ...intake.complaints].map(({ observation, value }) => [
        observation,
        value,
      ]),
    ),
  };
}

/** The gate answered without a sign of danger. */
export function foundSafe({ findings }: CaseContext, dangerIds: ReadonlySet<string>): Change {
  const absent = [...dangerIds].filter((id) => findings[id] === undefined).map((id) => [id, 'absent']);
  return { findings: { ...findings, ...Object.fromEntries(absent) } };
}

/** Signs of danger found, at the gate or at any time after. Whoever had taken over has not seen this one. */
export function foundDanger(context: CaseContext, { present }: Of<'danger-answered'>): Change {
  const { tried, dangerSigns } = context;
  return {
    dangerSigns: [...new Set([...dangerSigns, ...present])],
    findings: { ...without(context.findings, present), ...sameFor(present, 'present') },
    seenAfterTries:
      tried.length === 0
        ? context.seenAfterTries
        : { ...context.seenAfterTries, ...sameFor(present, tried.length) },
    ...workStopped,
  };
}

/** After a danger sign: what was under way ends, and nobody has taken over yet. */
export const workStopped: Change = { remedy: null, wanted: null, takenOverBy: null };

/** A finding comes last, also one made again: the last one tells what the machine is doing. */
export function answered(context: CaseContext, { observation, value }: Of<'answered'>): Change {
  return {
    findings: { ...without(context.findings, [observation]), [observation]: value },
    seenAfterTries: { ...context.seenAfterTries, [observation]: context.tried.length },
    notTellable: context.notTellable.filter((id) => id !== observation),
    skipped: context.skipped.filter((id) => id !== observation),
    wanted: null,
  };
}

export function couldNotTell({ notTellable }: CaseContext, { observation }: Of<'could-not-tell'>): Change {
  return { notTellable: [...notTellable.filter((id) => id !== observation), observation], wanted: null };
}

export function skipped(context: CaseContext, { observation }: Of<'skipped'>): Change {
  return { skipped: [...context.skipped.filter((id) => id !== observation), observation], wanted: null };
}

export function conditionSet({ conditions }: CaseContext, { condition, value }: Of<'condition-set'>): Change {
  const others = without(conditions, [condition]);
  return { conditions: value === null ? others : { ...others, [condition]: value } };
}

export function stepTicked({ remedy }: CaseContext, { step, isDone }: Of<'step-ticked'>): Change {
  if (!remedy) return {};
  const others = remedy.doneSteps.filter((done) => done !== step);
  return { remedy: { ...remedy, doneSteps: isDone ? [...others, step] : others } };
}

export function couldNotBeDone(
  { remedy, notDoable }: CaseContext,
  { reason }: Of<'could-not-be-done'>,
): Change {
  if (!remedy) return {};
  const others = notDoable.filter((one) => one.remedy !== remedy.id);
  return { remedy: null, notDoable: [...others, { remedy: remedy.id, reason }] };
}

export function verified({ tried, remedy }: CaseContext, event: Of<'verified'>): Change {
  if (!remedy) return {};
  const { outcome, with: part, reach } = event;
  const done = { remedy: remedy.id, outcome, ...(part && { with: part }), ...(reach && { reach }) };
  return { tried: [...tried, done], remedy: null };
}

export function closed({ causes, practice, minutesLost, gramsScrapped, note }: Of<'closed'>): Change {
  return { closing: { causes, practice, minutesLost, gramsScrapped, note } };
}

/**
 * The trouble is back, or was never gone: what had cured it was better for a while, and everything may be looked at and
 * done again. Findings stay: they were true when they were made.
 */
export function nextRound({ tried }: CaseContext): Change {
  return {
    closing: null,
    remedy: null,
    wanted: null,
    tried: tried.map((one) => (one.outcome === 'cured' ? { ...one, outcome: 'came-back' } : one)),
    triedBefore: tried.length,
    notDoable: [],
    notTellable: [],
    skipped: [],
  };
}

/** It was another printer or spool than the one that was said first. */
export function reassigned({ intake }: CaseContext, { printer, spool }: Of<'reassigned'>): Change {
  if (!intake) return {};
  return {
    intake: {
      ...intake,
      ...(printer !== undefined && { printerId: printer?.id ?? null }),
      ...(spool !== undefined && { spoolId: spool?.id ?? null }),
    },
  };
}

export function profileSet({ intake }: CaseContext, { profile }: Of<'profile-set'>): Change {
  if (!intake) return {};
  const named = { ...intake, ...(profile !== null && { profile }) };
  if (profile === null) delete named.profile;
  return { intake: named };
}

export function tagged({ tags }: CaseContext, { on, off }: Of<'tagged'>): Change {
  return { tags: withTags(tags, on, off).slice(0, MOST_TAGS) };
}

export function merged({ merged: before }: CaseContext, { other }: Of<'merged'>): Change {
  return { merged: [...before.filter(({ caseId }) => caseId !== other.caseId), other] };
}

export function parted({ merged: before, mergedInto }: CaseContext, { other }: Of<'parted'>): Change {
  return {
    merged: before.filter(({ caseId }) => caseId !== other.caseId),
    mergedInto: mergedInto?.caseId === other.caseId ? null : mergedInto,
  };
}

function without<T>(entries: Readonly<Record<string, T>>, ids: readonly string[]): Record<string, T> {
  return Object.fromEntries(Object.entries(entries).filter(([id]) => !ids.includes(id)));
}

function sameFor<T>(ids: readonly string[], value: T): Record<string, T> {
  return Object.fromEntries(ids.map((id) => [id, value]));
}
