import { describe, expect, it } from 'vitest';
import { faultsWithChanged } from '../shipped-knowledge.ts';

describe('what a guide has once', () => {
  it('is missed where no file has it', () => {
    const faults = faultsWithChanged(({ file, text }) =>
      file.endsWith('making-safe.yaml') ? 'topic: Making safe' : text,
    );
    expect(faults.map(({ code, message }) => [code, message])).toEqual([
      ['missing-part', 'no file of the guide has "makeSafe"'],
    ]);
  });

  it('is told where it stands twice', () => {
    const faults = faultsWithChanged(({ file, text }) =>
      file.endsWith('melting.yaml')
        ? `${text}makeSafe: [{do: Pull the plug., source: common practice}]\n`
        : text,
    );
    expect(faults.map(({ code }) => code)).toEqual(['doubled-part']);
  });

  it('names only polymers of the guide, each once', () => {
    const change = (from: string, to: string) =>
      faultsWithChanged(({ file, text }) => (file.endsWith('melting.yaml') ? text.replace(from, to) : text));
    expect(change('polymer: pctg', 'polymer: pctq')).toMatchObject([
      { code: 'dangling-id', remedy: 'did you mean "pctg"?' },
    ]);
    expect(change('polymer: pctg', 'polymer: petg')).toMatchObject([{ code: 'doubled-id' }]);
  });

  it('carries a source with every figure', () => {
    const faults = faultsWithChanged(({ file, text }) =>
      file.endsWith('service-heat.yaml') ? text.replace('source: estimate, ', '') : text,
    );
    expect(faults.map(({ code }) => code)).toEqual(['bad-shape']);
    expect(faults[0]?.message).toContain('source');
  });
});
