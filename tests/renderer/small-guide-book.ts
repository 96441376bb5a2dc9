import type { Guide } from '../../src-core/contract/guide-view.ts';
import { NO_WORDS } from '../../src-core/knowledge/words-schema.ts';
import { createGuideBook, type GuideBook } from '../../src-renderer/host/guide-book.ts';

type Cause = Guide['causes'][number];
type Observation = Guide['observations'][number];

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
    shownCure: [],
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

/** A guide small enough to be worked out by hand. */
export function smallGuideBook(parts: Partial<Guide>): GuideBook {
  return createGuideBook({
    version: 'small',
    conditions: [],
    materials: [],
    cautions: [],
    practices: [],
    mechanisms: [],
    places: [],
    spoolBodies: [],
    barriers: [],
    words: NO_WORDS,
    observations: [],
    facetTables: [],
    causes: [],
    remedies: [],
    ...parts,
  });
}
