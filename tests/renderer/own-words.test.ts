import { describe, expect, it } from 'vitest';
import type { Printer } from '../../src-core/contract/shop-records.ts';
import { createUnderstanding } from '../../src-core/words/understand/understand.ts';
import { IntakeDraft } from '../../src-renderer/screens/intake/intake-draft.svelte.ts';
import { OwnWords } from '../../src-renderer/screens/intake/own-words.svelte.ts';
import { chipWords } from '../../src-renderer/wording/chip-words.ts';
import { shippedGuideBook } from './shipped-guide-book.ts';

const heron: Printer = {
  id: '01JE000000000000000000000P',
  label: 'Heron',
  model: '',
  conditions: {},
  printHours: 0,
  note: '',
  isRetired: false,
  isDemo: false,
  revision: 1,
  openCases: 0,
};
const book = shippedGuideBook();
const shop = { printers: [heron], spools: [] };
const understand = createUnderstanding({ ...book.guide, ...shop }, book.wordBook);

function begin() {
  const draft = new IntakeDraft(null);
  const ownWords = new OwnWords(draft, book, shop);
  const read = (text: string) => ownWords.show(understand(text));
  const chip = (words: string) => {
    const found = ownWords.chips.find((one) => chipWords(one, book, shop, '°C') === words);
    if (!found) throw new Error(`no chip "${words}"`);
    return found;
  };
  return { draft, ownWords, read, chip };
}

describe('a case begun in own words', () => {
  it('takes over what is sure: complaint, circumstance, printer, try and what is not there', () => {
    const { draft, read } = begin();
    read('heavy stringing on Heron, 0.6 nozzle, no warping, dried it, no change');
    expect(draft.complaints).toEqual([{ observation: 'stringing', level: 'heavy' }]);
    expect(draft.printer).toBe(heron);
    expect(draft.entered).toEqual({ 'nozzle-mm': 0.6 });
    expect(draft.toIntake()).toMatchObject({
      measured: [{ observation: 'corners-lift', value: 'none' }],
      tried: expect.arrayContaining([expect.objectContaining({ outcome: 'not-cured' })]) as unknown,
    });
  });

  it('takes a chip off with one press, and it stays off when the text is read again', () => {
    const { draft, ownWords, read, chip } = begin();
    read('heavy stringing, 0.6 nozzle');
    ownWords.drop(chip('Stringing, heavy'));
    expect(draft.complaints).toEqual([]);
    expect(ownWords.offered.map(({ said }) => said)).toEqual(['stringing']);
    read('heavy stringing, 0.6 nozzle, blobs');
    expect(draft.complaints.map(({ observation }) => observation)).toEqual(['blobs-and-zits']);
    ownWords.take(chip('Stringing, heavy'));
    expect(draft.isPicked('stringing')).toBe(true);
  });

  it('takes back what a new reading no longer says, but not what was changed by hand', () => {
    const { draft, read } = begin();
    read('heavy stringing, 0.6 nozzle');
    draft.choose('nozzle-mm', 0.8);
    read('blobs');
    expect(draft.isPicked('stringing')).toBe(false);
    expect(draft.entered).toEqual({ 'nozzle-mm': 0.8 });
  });

  it('leaves how bad it is to the operator where the words do not say', () => {
    const { draft, ownWords, read, chip } = begin();
    read('stringing');
    expect(draft.missing).toBeNull();
    expect(draft.toIntake().complaints).toEqual([{ observation: 'stringing', value: 'present' }]);
    const stringing = chip('Stringing');
    expect(ownWords.gradesOf(stringing).map(({ id }) => id)).toEqual(['slight', 'heavy']);
    if (stringing.kind !== 'observation') throw new Error('not an observation');
    ownWords.grade(stringing, 'slight');
    expect(draft.toIntake().complaints).toEqual([{ observation: 'stringing', value: 'slight' }]);
  });

  it('only offers what is not sure', () => {
    const { draft, ownWords, read } = begin();
    read('not moisture');
    expect(draft.noticed).toEqual([]);
    expect(ownWords.offered).toHaveLength(1);
  });

  it('replaces one polymer by the other when that one is taken instead', () => {
    const { draft, ownWords, read, chip } = begin();
    read('nylon');
    ownWords.take(chip('Material: Nylon 6'));
    ownWords.take(chip('Material: Nylon 12'));
    expect(draft.entered).toEqual({ polymer: 'pa12' });
    expect(ownWords.taken).toHaveLength(1);
  });
});
