import { valueTexts } from '../words/en/values.ts';
import type { ThenAndNow } from '../contract/then-and-now-view.ts';
import { compileKnowledge } from '../knowledge/compile.ts';
import { today as nameToday } from '../knowledge/former-ids.ts';
import type { Knowledge } from '../knowledge/knowledge.ts';
import type { KnowledgeFile } from '../knowledge/schema.ts';
import { rebuild } from './advance.ts';
import { concludedBy, type CaseConclusion } from './case-conclusion.ts';
import type { AroundCase, CaseStep } from './case-step.ts';
import { guideChanges, type GuideChange } from './guide-changes.ts';
import type { LoggedEvent } from './logged-event.ts';
import { causeLabel, observationLabel, remedyLabel } from './wording.ts';

/** Changes of the guide that are listed. */
const SHOWN_CHANGES = 8;

/** A case under an earlier guide: what it comes to with today's sums, and what of the guide changed that touches it. */
export interface UnderEarlierGuide {
  readonly conclusion: CaseConclusion;
  readonly changes: readonly GuideChange[];
  /** Labels of that guide's causes and remedies that it shows, for ids that today's guide does not have. */
  readonly labels: Readonly<Record<string, string>>;
}

/**
 * Replays a case under the files of an earlier guide. `kept` is what was concluded on that day, where that is known; `step` is
 * the case under today's guide. Null where these files are of a form that cannot be read any more.
 */
export function underEarlierGuide(
  knowledge: Knowledge,
  earlier: { readonly version: string; readonly files: readonly KnowledgeFile[] },
  log: readonly LoggedEvent[],
  around: AroundCase,
  kept: CaseConclusion | null,
  step: CaseStep,
): UnderEarlierGuide | null {
  try {
    const guide = compileKnowledge(earlier.files, earlier.version);
    const rebuilt = rebuild(guide, log, around);
    const conclusion = concludedBy(rebuilt);
    const shown = [conclusion, kept, concludedBy(step)].flatMap((one) => (one ? [one] : []));
    const causes = shown.flatMap(({ candidates }) => candidates.map(([cause]) => cause));
    const remedies = shown.flatMap((one) => [one.remedy, one.next?.kind === 'remedy' ? one.next.id : null]);
    const checks = shown.flatMap((one) => (one.next?.kind === 'check' ? [one.next.id] : []));
    const { context } = rebuilt.moment;
    return {
      conclusion,
      changes: guideChanges(guide, knowledge, {
        causes,
        findings: [
          ...(context.intake?.complaints ?? []).map(({ observation }) => observation),
          ...Object.keys(context.findings),
        ],
        conditions: context.conditions,
      }),
      labels: Object.fromEntries([
        ...causes.flatMap((id) => pair(id, guide.causes.get(id)?.label)),
        ...remedies.flatMap((id) => (id === null ? [] : pair(id, guide.remedies.get(id)?.label))),
        ...[...checks, ...Object.keys(context.findings)].flatMap((id) =>
          pair(id, guide.observations.get(id)?.label),
        ),
      ]),
    };
  } catch {
    // Files of an earlier form: what they lack cannot be made up.
    return null;
  }
}

function pair(id: string, label: string | undefined): [string, string][] {
  return label === undefined ? [] : [[id, label]];
}

/** What a case concluded then beside what it concludes now, with why they differ as far as that can be told. */
export function thenAndNow(
  knowledge: Knowledge,
  parts: {
    readonly now: CaseConclusion;
    /** As it was kept on the day; null where it was not. */
    readonly kept: CaseConclusion | null;
    /** The guide of that day with today's sums; null where it cannot be had. */
    readonly earlier: UnderEarlierGuide | null;
    readonly isOtherGuide: boolean;
    readonly isOtherEngine: boolean;
  },
): ThenAndNow {
  const { now, kept, earlier, isOtherGuide, isOtherEngine } = parts;
  const then = kept ?? earlier?.conclusion ?? null;
  const { former } = knowledge;
  const label = (id: string, inGuide: boolean, own: string) => (inGuide ? own : (earlier?.labels[id] ?? own));
  const causeName = (id: string) => label(id, knowledge.causes.has(id), causeLabel(knowledge, id));
  const side = (one: CaseConclusion | null) => ({ next: nextOf(one), remedy: remedyOf(one?.remedy ?? null) });
  const remedyOf = (id: string | null) => {
    if (id === null) return null;
    const known = nameToday(former.remedies, id);
    return {
      id: known,
      label: label(known, knowledge.remedies.has(known), remedyLabel(knowledge, known)),
    };
  };
  const observationName = (id: string) => {
    const known = nameToday(former.observations, id);
    return label(known, knowledge.observations.has(known), observationLabel(knowledge, known));
  };
  const nextOf = (one: CaseConclusion | null): ThenAndNow['now']['next'] => {
    if (!one?.next) return null;
    const { kind, id } = one.next;
    if (kind === 'check') return { kind, label: observationName(id) };
    if (kind === 'remedy') return { kind, label: remedyOf(id)?.label ?? id };
    return { kind: 'hand-over', label: valueTexts.m.handOver() };
  };
  const placesOf = (one: CaseConclusion | null) =>
    new Map(
      (one?.candidates ?? []).map(([id, p], at) => [nameToday(former.causes, id), { p, place: at + 1 }]),
    );
  const [before, after] = [placesOf(then), placesOf(now)];
  const ids = [...new Set([...after.keys(), ...before.keys()])];
  const moved = (a: CaseConclusion | null, b: CaseConclusion | null) => {
    if (!a || !b) return null;
    const [one, other] = [placesOf(a), placesOf(b)];
    const apart = [...one].flatMap(([id, { p }]) => {
      const there = other.get(id);
      return there ? [Math.abs(p - there.p)] : [];
    });
    return Math.max(0, ...apart);
  };
  return {
    then: { from: kept ? 'kept' : earlier ? 'worked-out' : 'not-known', ...side(then) },
    now: side(now),
    candidates: ids.map((id) => ({
      id,
      label: causeName(id),
      then: before.get(id)?.p ?? null,
      now: after.get(id)?.p ?? null,
      placeThen: before.get(id)?.place ?? null,
      placeNow: after.get(id)?.place ?? null,
    })),
    isOtherGuide,
    isOtherEngine,
    movedByEngine: isOtherGuide ? moved(kept, earlier?.conclusion ?? null) : moved(kept, now),
    movedByGuide: isOtherGuide ? moved(earlier?.conclusion ?? null, now) : null,
    changes:
      isOtherGuide && !earlier
        ? null
        : (earlier?.changes ?? []).slice(0, SHOWN_CHANGES).map((change) => ({
            kind: change.kind,
            cause: causeName(change.cause),
            observation: change.kind === 'link' ? observationName(change.observation) : null,
            before: 'before' in change ? change.before : null,
            now: 'now' in change ? change.now : null,
          })),
    moreChanges: Math.max(0, (earlier?.changes.length ?? 0) - SHOWN_CHANGES),
  };
}
