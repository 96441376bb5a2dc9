import fc from 'fast-check';
import { expect, it } from 'vitest';
import { CALL_NAMES, type CallName } from '../../src-core/contract/call-names.ts';
import { calls, type OutputOf } from '../../src-core/contract/calls.ts';
import { isNightly } from '../nightly.ts';
import { programInMemory } from '../operations/program-in-memory.ts';
import { figure } from './figures.ts';
import { inputsOf } from './from-schema.ts';

/** `BEADWRIGHT_FUZZ` sets another number. */
const INPUTS = Number(process.env['BEADWRIGHT_FUZZ'] ?? (isNightly ? 30_000 : 200));
/** Whole years of cases, and what replaces the casebook: not what an input of a call can break. */
const NOT_HERE: readonly CallName[] = ['demo:load', 'demo:remove', 'backup:make', 'backup:restore'];
/** A second and more each, whatever they are asked: drawn seldom. */
const TAKE_SECONDS: ReadonlySet<CallName> = new Set([
  'case:second-thoughts',
  'training:view',
  'training:second-thoughts',
]);

function firstIds(guide: OutputOf<'guide:read'>): string[] {
  const { observations, causes, remedies, conditions, materials, practices } = guide;
  const kinds: (readonly { readonly id: string }[])[] = [
    observations,
    causes,
    remedies,
    conditions,
    materials,
    practices,
  ];
  return kinds.flatMap((entries) => entries.slice(0, 12).map(({ id }) => id));
}

it(
  `${INPUTS} inputs drawn from the contract’s own schemas: each is answered or refused in words, and the program goes on`,
  async () => {
    const { dispatcher, ask } = await programInMemory();
    const shop = await ask('shop:save-printer', { label: 'Heron', conditions: {}, printHours: 1 });
    const shelf = await ask('shop:save-spool', { label: 'A-1', polymer: 'abs' });
    const { caseId } = await ask('case:open', {
      complaints: [{ observation: 'stringing', value: 'slight' }],
    });
    const guide = await ask('guide:read', {});
    const known = [
      caseId,
      shop.printers[0]?.id ?? '',
      shelf.spools[0]?.id ?? '',
      ...firstIds(guide),
      ...[
        'stringing',
        'abs',
        'pla',
        'open',
        'slight',
        'absent',
        'present',
        'dryer',
        'foil-laminate',
        'plastic',
      ],
    ];
    const inputs = fc.oneof(
      ...CALL_NAMES.filter((name) => !NOT_HERE.includes(name)).map((name) => ({
        weight: TAKE_SECONDS.has(name) ? 1 : 30,
        arbitrary: inputsOf(calls[name].input, known).map((input) => ({ name, input })),
      })),
    );
    let answered = 0;
    let refused = 0;
    const before = process.memoryUsage().rss;
    await fc.assert(
      fc.asyncProperty(inputs, async ({ name, input }) => {
        const reply = await dispatcher.dispatch(name, input);
        if (reply.ok) answered += 1;
        else {
          refused += 1;
          expect(reply.error.code, reply.error.message).not.toBe('internal');
          expect(reply.error.message).not.toContain('    at ');
        }
      }),
      { numRuns: INPUTS },
    );
    // Drawn so that many come through the gate: a fuzz that is refused at the door tests the door.
    expect(answered).toBeGreaterThan(INPUTS / 10);
    // The first case may lie in the bin by now, or be gone from it: some of the calls do that when asked. Work goes on.
    const after = await ask('case:open', { complaints: [{ observation: 'stringing', value: 'slight' }] });
    expect((await ask('case:view', { caseId: after.caseId })).caseId).toBe(after.caseId);
    const mb = (bytes: number) => `${Math.round(bytes / 1e6)} MB`;
    figure(
      'fuzz',
      `${answered + refused} inputs: ${answered} answered, ${refused} refused, 0 internal; RSS ${mb(before)} -> ${mb(process.memoryUsage().rss)}`,
    );
  },
  24 * 3_600_000,
);
