import { compileKnowledge } from '../../src-core/knowledge/compile.ts';
import type { Knowledge } from '../../src-core/knowledge/knowledge.ts';
import type { Cause, KnowledgeFile, Observation } from '../../src-core/knowledge/schema.ts';

export function observation(
  id: string,
  leak: number,
  minutes: number,
  more: Partial<Observation> = {},
): Observation {
  return {
    id,
    label: id,
    ask: `${id}?`,
    kind: 'sign',
    place: 'walls-and-tops',
    alsoCalled: [],
    formerly: [],
    settles: [],
    settlesWhenAbsent: [],
    onlyAbout: [],
    shownCure: [],
    saysSameKind: [],
    seenInTrying: [],
    leadsTo: [],
    onlyWhenLedTo: false,
    leak: { strength: leak, source: 'estimate' },
    check: {
      how: 'Look.',
      with: [],
      minutes,
      machine: 'any',
      countsAsPresent: 'It is there.',
      nullRulesOut: 'Little.',
      cautions: [],
      destroysPart: false,
    },
    complaint: true,
    unspecific: false,
    danger: false,
    ...more,
  };
}

export function cause(id: string, shows: Readonly<Record<string, number>>, more: Partial<Cause> = {}): Cause {
  return {
    id,
    label: id,
    family: 'settings',
    formerly: [],
    alsoCalled: [],
    summary: id,
    prior: { perHundredCases: 1, source: 'estimate' },
    movedBy: [],
    drives: [],
    shows: Object.entries(shows).map(([to, strength]) => ({ to, strength, source: 'estimate' })),
    practices: [],
    ...more,
  };
}

/** A compiled guide small enough to be worked out by hand. */
export function smallGuide(parts: Omit<KnowledgeFile, 'topic'>): Knowledge {
  return compileKnowledge([{ topic: 'Small', ...parts }], 'small');
}
