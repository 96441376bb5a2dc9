import { describe, expect, it } from 'vitest';
import type { Printer, Spool } from '../../src-core/contract/shop-records.ts';
import { IntakeDraft } from '../../src-renderer/screens/intake/intake-draft.svelte.ts';

const printer: Printer = {
  id: '01JE000000000000000000000P',
  label: 'Heron',
  model: '',
  conditions: { 'nozzle-mm': 0.8, storage: 'open' },
  printHours: 1200,
  note: '',
  isRetired: false,
  isDemo: false,
  revision: 1,
  openCases: 0,
};
const spool: Spool = {
  id: '01JE000000000000000000000S',
  label: 'G-05',
  polymer: 'petg',
  filler: 'none',
  fillerPercent: null,
  storage: 'spool-bay',
  openedAt: null,
  filamentDiameterMm: 1.75,
  filamentGrams: 1000,
  supplier: '',
  batch: '',
  tareGrams: null,
  body: 'plastic',
  note: '',
  isRetired: false,
  isDemo: false,
  revision: 1,
};

/** A store that holds its texts in a map. */
function memoryStore(): Storage {
  const kept = new Map<string, string>();
  return {
    get length() {
      return kept.size;
    },
    clear: () => kept.clear(),
    getItem: (key) => kept.get(key) ?? null,
    key: (index) => [...kept.keys()][index] ?? null,
    removeItem: (key) => void kept.delete(key),
    setItem: (key, value) => void kept.set(key, value),
  };
}

it('names its case once, also over a reload, and the next case anew', () => {
  const store = memoryStore();
  const draft = new IntakeDraft(store);
  const { caseId } = draft;
  expect(caseId).toMatch(/^[0-9A-HJKMNP-TV-Z]{26}$/);
  draft.keep();
  const reloaded = new IntakeDraft(store);
  reloaded.restore([], []);
  expect(reloaded.caseId).toBe(caseId);
  reloaded.forget();
  expect(reloaded.caseId).not.toBe(caseId);
});

describe('a case before it is opened', () => {
  it('needs a complaint; how bad it is may be said, and is left open otherwise', () => {
    const draft = new IntakeDraft(null);
    expect(draft.missing).toBe('complaint');
    draft.pick('stringing', true);
    draft.pick('blobs-and-zits', true);
    expect(draft.missing).toBeNull();
    draft.grade('stringing', 'heavy');
    expect(draft.toIntake().complaints).toEqual([
      { observation: 'stringing', value: 'heavy' },
      { observation: 'blobs-and-zits', value: 'present' },
    ]);
    draft.grade('stringing', null);
    expect(draft.toIntake().complaints[0]).toEqual({ observation: 'stringing', value: 'present' });
    draft.pick('stringing', false);
    expect(draft.complaints.map((one) => one.observation)).toEqual(['blobs-and-zits']);
  });

  it('carries statements as they were said, hedged or not, and leaves out what was taken off', () => {
    const draft = new IntakeDraft(null);
    draft.pick('stringing', true);
    draft.notice('came-suddenly', null);
    draft.notice('only-at-corners', 'absent');
    draft.notice('one-axis-only', 'probably');
    draft.notice('now-and-then', null);
    draft.notice('now-and-then', null, false);
    expect(draft.toIntake().measured).toEqual([
      { observation: 'came-suddenly', value: 'present' },
      { observation: 'only-at-corners', value: 'absent' },
      { observation: 'one-axis-only', value: 'probably' },
    ]);
  });

  it('names the files that were read, without letters that nobody sees', () => {
    const draft = new IntakeDraft(null);
    draft.pick('stringing', true);
    expect(draft.toIntake().files).toBeUndefined();
    draft.addFile({ name: 'bracket\u202e v2.gcode', readings: [] });
    draft.addFile({ name: '\u200b', readings: [] });
    draft.addFile({ name: 'heaters.log', readings: [] });
    expect(draft.toIntake().files).toEqual(['bracket v2.gcode', 'heaters.log']);
  });

  it('is empty again after it was forgotten, here and in its store', () => {
    const store = memoryStore();
    const draft = new IntakeDraft(store);
    expect(draft.isEmpty).toBe(true);
    draft.pick('stringing', true);
    draft.addFile({ name: 'heaters.log', readings: [] });
    draft.keep();
    expect(draft.isEmpty).toBe(false);
    draft.forget();
    expect(draft.isEmpty).toBe(true);
    const next = new IntakeDraft(store);
    next.restore([], []);
    expect(next.isEmpty).toBe(true);
  });

  it('shows what printer and spool know, the spool before the printer and what is entered before both', () => {
    const draft = new IntakeDraft(null);
    draft.printer = printer;
    draft.spool = spool;
    expect(draft.known['nozzle-mm']).toEqual({ value: 0.8, source: 'printer' });
    expect(draft.known['printer-hours']).toEqual({ value: 1200, source: 'printer' });
    expect(draft.known['storage']).toEqual({ value: 'spool-bay', source: 'spool' });
    expect(draft.known['filler-percent']).toBeUndefined();
    draft.choose('storage', 'gasketed-tub');
    expect(draft.known['storage']).toEqual({ value: 'gasketed-tub', source: 'entered' });
    draft.choose('storage', null);
    expect(draft.known['storage']).toEqual({ value: 'spool-bay', source: 'spool' });
  });

  it('leaves to the host what printer and spool know and sends only what was entered', () => {
    const draft = new IntakeDraft(null);
    draft.printer = printer;
    draft.choose('polymer', 'abs');
    expect(draft.toIntake()).toMatchObject({ printerId: printer.id, conditions: { polymer: 'abs' } });
  });

  it('refuses initials that are not one to four letters and takes none at all', () => {
    const draft = new IntakeDraft(null);
    draft.pick('blobs-and-zits', true);
    expect(draft.toIntake().openedBy).toBeNull();
    draft.openedBy = 'R.K.';
    expect(draft.missing).toBe('initials');
    draft.openedBy = ' RK ';
    expect(draft.missing).toBeNull();
    expect(draft.toIntake().openedBy).toBe('RK');
  });

  it('comes back whole after a reload, without a printer that is gone', () => {
    const store = memoryStore();
    const draft = new IntakeDraft(store);
    draft.pick('stringing', true);
    draft.printer = printer;
    draft.spool = spool;
    draft.words = 'Since Monday';
    draft.choose('nozzle-mm', 0.4);
    draft.keep();

    const again = new IntakeDraft(store);
    again.restore([], [spool]);
    expect(again.complaints).toEqual([{ observation: 'stringing', level: null }]);
    expect(again.printer).toBeNull();
    expect(again.spool?.id).toBe(spool.id);
    expect(again.words).toBe('Since Monday');
    expect(again.known['nozzle-mm']?.value).toBe(0.4);
  });

  it.each(['not json', '{"complaints":3}', '[]', 'null'])(
    'starts afresh from an unreadable draft: %s',
    (text) => {
      const store = memoryStore();
      store.setItem('beadwright.intake', text);
      const draft = new IntakeDraft(store);
      draft.restore([printer], [spool]);
      expect(draft.complaints).toEqual([]);
    },
  );
});
