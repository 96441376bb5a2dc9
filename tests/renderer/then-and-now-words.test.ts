import { describe, expect, it } from 'vitest';
import type { ThenAndNow } from '../../src-core/contract/then-and-now-view.ts';
import {
  conclusionWords,
  guideChangeWords,
  movementWords,
  nextWords,
  remedyWords,
  whyWords,
} from '../../src-renderer/wording/then-and-now-words.ts';
import { inEnglish } from '../../src-core/words/in-english.ts';

const candidate = {
  id: 'wet-filament',
  label: 'Wet filament',
  then: 0.6,
  now: 0.7,
  placeThen: 2,
  placeNow: 1,
};
const both: ThenAndNow = {
  then: { from: 'kept', next: { kind: 'check', label: 'Weigh it' }, remedy: { id: 'dry', label: 'Dry it' } },
  now: { next: { kind: 'check', label: 'Weigh it' }, remedy: { id: 'swap', label: 'Swap it' } },
  candidates: [
    candidate,
    { id: 'worn-nozzle', label: 'Worn nozzle', then: 0.65, now: null, placeThen: 1, placeNow: null },
  ],
  isOtherGuide: true,
  isOtherEngine: true,
  movedByEngine: 0.001,
  movedByGuide: 0.1,
  changes: [],
  moreChanges: 0,
};

describe('then and now, in words', () => {
  it('says what came, went, rose, fell and stayed', () => {
    expect(movementWords(candidate)).toBe('up from 2nd to 1st');
    expect(movementWords({ ...candidate, placeThen: 1, placeNow: 4 })).toBe('down from 1st to 4th');
    expect(movementWords({ ...candidate, placeThen: null, then: null })).toBe('new among the first six');
    expect(movementWords({ ...candidate, placeNow: null, now: null })).toBe('no longer among the first six');
    expect(movementWords({ ...candidate, placeThen: 1 })).toBe('same place, likelier');
    expect(movementWords({ ...candidate, placeThen: 1, then: 0.702 })).toBe('as it was');
  });

  it('names the first candidate of both days, the next step and the remedy', () => {
    expect(conclusionWords(both)).toBe(
      'Worn nozzle stood first with 65 %. Today Wet filament would, with 70 %.',
    );
    expect(nextWords(both, inEnglish)).toBe('The next step is the same: Weigh it.');
    expect(remedyWords(both)).toBe('The remedy offered first was “Dry it”; today it would be “Swap it”.');
    expect(conclusionWords({ ...both, then: { from: 'not-known', next: null, remedy: null } })).toContain(
      'was not kept',
    );
  });

  it('says why: through guide or sums, and what cannot be told', () => {
    expect(whyWords(both)).toBe(
      'The guide has changed since, and so have the sums. Through the guide alone no candidate moved by more than 10 percentage points; through the sums alone by no more than half a percentage point. Nothing that touches the findings and the first candidates of this case changed in it.',
    );
    expect(whyWords({ ...both, isOtherGuide: false, movedByGuide: null, movedByEngine: 0.02 })).toBe(
      'The sums have changed since. Through the sums alone no candidate moved by more than 2 percentage points.',
    );
    expect(whyWords({ ...both, changes: null, movedByEngine: null, movedByGuide: null })).toContain(
      'cannot be told',
    );
  });

  it('gives changes of the guide with both figures', () => {
    const change = {
      kind: 'link' as const,
      cause: 'Wet filament',
      observation: 'Popping',
      before: 0.02,
      now: 0.9,
    };
    expect(guideChangeWords(change)).toMatch(/^Wet filament → Popping: .*2\u00a0%; now .*90\u00a0%$/);
    expect(guideChangeWords({ ...change, kind: 'prior', observation: null, before: 0.005, now: 0.126 })).toBe(
      'Wet filament: of 100 such cases 0.5 came from it, now 13',
    );
    // The same word is not said twice.
    expect(guideChangeWords({ ...change, now: 0.03 })).toMatch(/: hardly ever, 2\u00a0%, now 3\u00a0%$/);
    expect(guideChangeWords({ ...change, kind: 'new-cause' })).toContain('did not have it');
  });
});
