import { describe, expect, it } from 'vitest';
import { loadKnowledge } from '../../src-core/knowledge/load.ts';
import { faultsWithChanged, shippedTexts } from '../shipped-knowledge.ts';

/** Faults of the shipped guide after one change to its words. */
function faultsWith(before: string, after: string): string[] {
  const faults = faultsWithChanged(({ file, text }) => {
    if (!file.endsWith('words.yaml')) return text;
    expect(text).toContain(before);
    return text.replace(before, after);
  });
  return faults.map(({ code, message }) => `${code}: ${message}`);
}

describe('words of the trade', () => {
  it('stand in one row only, whatever their endings', () =>
    expect(faultsWith('- [tangle, knot]', '- [tangle, knot, clogging]')).toContainEqual(
      expect.stringMatching(/^word-in-two-rows: "clogging" stands in the row of "clog"/),
    ));

  it.each([
    ['value: new-spool,', 'value: new-spol,', 'new-spol'],
    ['condition: nozzle-mm,', 'condition: nozzle-mn,', 'nozzle-mn'],
    ['observation: other-nozzle-clean', 'observation: other-nozle-clean', 'other-nozle-clean'],
  ])('name only what the guide knows: %s', (before, after, name) =>
    expect(faultsWith(before, after)).toContainEqual(
      expect.stringMatching(new RegExp(`^dangling-id: .*"${name}"`)),
    ),
  );

  it('stand in one file only', () => {
    const loaded = loadKnowledge([
      ...shippedTexts(),
      { file: 'knowledge/more-words.yaml', text: 'topic: More words\nwords: {}\n' },
    ]);
    expect(loaded.ok ? [] : loaded.faults.map(({ code, file }) => `${code} ${file}`)).toEqual([
      'words-in-two-files knowledge/more-words.yaml',
    ]);
  });
});
