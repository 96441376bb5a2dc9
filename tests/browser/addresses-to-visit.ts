import type { CaseEvent } from '../../src-core/contract/case-event.ts';
import type { StationProcess } from '../processes/launch-station.ts';

const opened = { complaints: [{ observation: 'popping-while-loading', value: 'heavy' }] };
const safe: CaseEvent = { kind: 'danger-answered', present: [] };
const dry: CaseEvent = { kind: 'remedy-chosen', remedy: 'dry-the-spool' };
/** Events that bring a case into each of its states. */
const STATES: readonly (readonly [string, readonly CaseEvent[]])[] = [
  ['stop-now', []],
  ['make-safe', [{ kind: 'danger-answered', present: ['smoke-or-burning-smell'] }]],
  ['checking', [safe]],
  ['verdict', [safe, { kind: 'verdict-asked' }]],
  ['remedy', [safe, dry]],
  ['verification', [safe, dry, { kind: 'remedy-done' }]],
  ['closing', [safe, dry, { kind: 'remedy-done' }, { kind: 'verified', outcome: 'cured' }]],
  ['parked', [safe, { kind: 'parked', note: 'end of shift' }]],
  ['handed-over', [safe, { kind: 'handed-over', note: '' }]],
  [
    'closed',
    [
      safe,
      {
        kind: 'closed',
        causes: [{ cause: 'wet-filament' }],
        practice: null,
        minutesLost: 5,
        gramsScrapped: 1,
        note: '',
      },
    ],
  ],
];

/** Loads the demo shop and brings cases into every state; returns the address of every screen. */
export async function addressesToVisit(station: StationProcess): Promise<string[]> {
  const ask = async <T>(
    reply: Promise<{ ok: true; value: T } | { ok: false; error: { message: string } }>,
  ) => {
    const settled = await reply;
    if (!settled.ok) throw new Error(settled.error.message);
    return settled.value;
  };
  await ask(station.call('demo:load', {}));
  const addresses = ['bench', 'intake', 'casebook', 'recurrence', 'practice', 'guide', 'shop', 'settings'];
  addresses.push(
    'guide/causes/wet-filament',
    'guide/materials/abs',
    'guide/observations/stringing',
    'guide/remedies/dry-the-spool',
  );
  for (const [, events] of STATES) {
    const { caseId } = await ask(station.call('case:open', opened));
    for (const [index, event] of events.entries())
      await ask(station.call('case:send', { caseId, revision: index + 1, event }));
    addresses.push(`case/${caseId}`);
  }
  addresses.push(addresses.at(-1)?.replace('case/', 'timeline/') ?? '');
  return addresses;
}
