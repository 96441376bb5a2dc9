import { describe, expect, it } from 'vitest';
import type { CallName } from '../../src-core/contract/call-names.ts';
import type { CaseEvent } from '../../src-core/contract/case-event.ts';
import { readXmlbif } from '../../src-core/inference/index.ts';
import { readCaseFile } from '../../src-main/command/case-file.ts';
import { programInMemory } from '../operations/program-in-memory.ts';
import { shippedKnowledge } from '../shipped-knowledge.ts';
import { hostile } from './hostile-text.ts';

const complaints = [{ observation: 'stringing', value: 'slight' }];

describe('inputs at the edge of what a number or a name can be (attack, low: internal answers)', () => {
  async function withSpool() {
    const test = await programInMemory();
    const shop = await test.ask('shop:save-spool', { label: 'A-1', polymer: 'abs' });
    return { ...test, spoolId: shop.spools[0]?.id ?? '' };
  }

  it.each([
    ['training:view', 'an unknown family', { seed: 1, family: 'no-such-family', moves: [] }],
    [
      'training:view',
      'a family named like a part of the language',
      { seed: 1, family: 'constructor', moves: [] },
    ],
    [
      'spool:storage',
      'an area that is all but nothing',
      { barrier: 'foil-laminate', areaM2: 1e-320, airLitre: 8, months: 12, desiccantG: 50 },
    ],
    [
      'spool:storage',
      'months and desiccant that are all but nothing',
      { barrier: 'foil-laminate', areaM2: 0.4, airLitre: 5e-324, months: 5e-324, desiccantG: 5e-324 },
    ],
    ['spool:read', 'a target that is all but nothing', { targetPercent: 5e-324 }],
    ['spool:read', 'a flow that is all but nothing', { flowMm3PerS: 5e-324 }],
    ['log:read', 'numbers of 400 digits', { text: `T:${'9'.repeat(400)} /200\n`.repeat(50) }],
    ['flow:sheet', 'numbers that are all but nothing', { nozzleMm: 5e-324, widthMm: 5e-324 }],
  ] as const)('%s with %s is answered or refused in words', async (name, _what, more) => {
    const { dispatcher, spoolId } = await withSpool();
    const input = name.startsWith('spool:') ? { spoolId, ...more } : more;
    const reply = await dispatcher.dispatch(name satisfies CallName, input);
    if (!reply.ok) {
      expect(reply.error.code).not.toBe('internal');
      expect(reply.error.message).not.toContain('    at ');
    }
  });
});

describe('names that cannot be seen or turn words about (attack, low: zero-width names, RTL overrides)', () => {
  it.each([...hostile.unseen, hostile.turnedAbout])(
    '%j names no printer, spool, cause or part',
    async (name) => {
      const { dispatcher, ask } = await programInMemory();
      const { caseId } = await ask('case:open', { complaints });
      await ask('case:send', { caseId, revision: 1, event: { kind: 'danger-answered', present: [] } });
      const closing = { practice: null, minutesLost: 1, gramsScrapped: 1, note: '' };
      const events: CaseEvent[] = [
        { kind: 'closed', causes: [{ named: name }], ...closing },
        { kind: 'parked', note: '', part: name },
      ];
      const replies = [
        await dispatcher.call('shop:save-printer', { label: name, conditions: {}, printHours: 1 }),
        await dispatcher.call('shop:save-spool', { label: name, polymer: 'abs' }),
        await dispatcher.call('shop:save-spool', { label: 'A-1', polymer: 'abs', supplier: name }),
        await dispatcher.call('shop:save-spool', { label: 'A-1', polymer: 'abs', batch: name }),
      ];
      for (const event of events)
        replies.push(
          (await dispatcher.call('case:send', { caseId, revision: 2, event })) as (typeof replies)[0],
        );
      for (const reply of replies)
        expect(reply).toMatchObject({
          ok: false,
          error: { message: expect.stringContaining('cannot be seen') },
        });
    },
  );

  it('a note of nothing that can be seen is refused', async () => {
    const { dispatcher, ask } = await programInMemory();
    const { caseId } = await ask('case:open', { complaints });
    for (const text of hostile.unseen)
      expect(
        await dispatcher.call('case:send', { caseId, revision: 1, event: { kind: 'noted', text } }),
      ).toMatchObject({ ok: false });
  });
});

describe('files that were too much', () => {
  it('a case file of 1.8 million keys is refused at once (attack, low: 1.8 M keys)', () => {
    const text = `findings:\n${Array.from({ length: 1_800_000 }, (_, i) => `  k${i}: present`).join('\n')}`;
    const read = readCaseFile(text, 'case.yaml', shippedKnowledge());
    // Its size alone says so: nothing of it is parsed, however slow the machine is.
    expect(read).toMatchObject({ ok: false, faults: [expect.stringContaining('larger than any case file')] });
  });

  it('a case file of 10,000 keys, small enough to be read, ends with words (attack, low: 1.8 M keys)', () => {
    const keys = Array.from({ length: 10_000 }, (_, i) => `  k${i}: present`);
    const text = `findings:\n${keys.join('\n')}`;
    expect(readCaseFile(text, 'case.yaml', shippedKnowledge())).toMatchObject({
      ok: false,
      faults: [expect.stringContaining('more than any case has')],
    });
  });

  it('a network that is a chain of 10,000 variables, children first, is read (attack, low: XMLBIF)', () => {
    const LENGTH = 10_000;
    const outcomes = '<OUTCOME>true</OUTCOME><OUTCOME>false</OUTCOME>';
    const variables = Array.from(
      { length: LENGTH },
      (_, i) => `<VARIABLE TYPE="nature"><NAME>v${i}</NAME>${outcomes}</VARIABLE>`,
    );
    const definitions = Array.from({ length: LENGTH }, (_, i) =>
      i === LENGTH - 1
        ? `<DEFINITION><FOR>v${i}</FOR><TABLE>0.5 0.5</TABLE></DEFINITION>`
        : `<DEFINITION><FOR>v${i}</FOR><GIVEN>v${i + 1}</GIVEN><TABLE>0.9 0.1 0.2 0.8</TABLE></DEFINITION>`,
    );
    const read = readXmlbif(
      `<?xml version="1.0"?><BIF VERSION="0.3"><NETWORK><NAME>chain</NAME>\n${[...variables, ...definitions].join('\n')}\n</NETWORK></BIF>`,
    );
    if (!read.ok) throw new Error(read.message);
    expect(read.network.variables.map(({ id }) => id)).toEqual(
      Array.from({ length: LENGTH }, (_, i) => `v${LENGTH - 1 - i}`),
    );
  });
});
