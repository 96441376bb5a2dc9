import { describe, expect, it } from 'vitest';
import type { Printer, Spool } from '../../src-core/contract/shop-records.ts';
import { IntakeDraft } from '../../src-renderer/screens/intake/intake-draft.svelte.ts';

const printer: Printer = {
  id: '01JE000000000000000000000P',
  label: 'Heron',
  conditions: { 'nozzle-mm': 0.8, storage: 'open' },
  printHours: 1200,
  note: '',
  isRetired: false,
  isDemo: false,
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
  body: 'plastic',
  note: '',
  isRetired: false,
  isDemo: false,
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

describe('a case before it is opened', () => {
  it('needs a complaint, and a grade where the complaint has grades', () => {
    const draft = new IntakeDraft(null);
    expect(draft.missing).toBe('complaint');
    draft.pick('stringing', true, true);
    expect(draft.missing).toBe('grade');
    expect(draft.ungraded).toBe('stringing');
    draft.grade('stringing', 'heavy');
    draft.pick('blobs-and-zits', true, false);
    expect(draft.missing).toBeNull();
    expect(draft.toIntake().complaints).toEqual([
      { observation: 'stringing', value: 'heavy' },
      { observation: 'blobs-and-zits', value: 'present' },
    ]);
    draft.pick('stringing', false, true);
    expect(draft.complaints.map((one) => one.observation)).toEqual(['blobs-and-zits']);
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
    draft.pick('blobs-and-zits', true, false);
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
    draft.pick('stringing', true, true);
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
