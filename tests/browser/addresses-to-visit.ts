import type { CaseEvent } from '../../src-core/contract/case-event.ts';
import type { InputOf } from '../../src-core/contract/calls.ts';
import type { Page, Request } from 'playwright-core';
import type { StationProcess } from '../processes/launch-station.ts';
import { isShown } from './go.ts';

const opened: InputOf<'case:open'> = {
  conditions: { polymer: 'abs', 'nozzle-mm': 0.8, storage: 'open', enclosure: 'closed' },
  complaints: [{ observation: 'weak-layer-bonds', value: 'slight' }],
};
const safe: CaseEvent = { kind: 'danger-answered', present: [] };
const popping: CaseEvent = { kind: 'answered', observation: 'popping-while-loading', value: 'slight' };
const dry: CaseEvent = { kind: 'remedy-chosen', remedy: 'dry-the-spool' };
/** Events that bring a case into each of its states. */
const STATES: readonly (readonly [string, readonly CaseEvent[]])[] = [
  ['stop-now', []],
  ['make-safe', [{ kind: 'danger-answered', present: ['smoke-or-burning-smell'] }]],
  ['stopped', [{ kind: 'danger-answered', present: ['smoke-or-burning-smell'] }, { kind: 'made-safe' }]],
  ['checking', [safe, popping]],
  ['verdict', [safe, popping, { kind: 'verdict-asked' }]],
  ['remedy', [safe, popping, dry]],
  ['verification', [safe, popping, dry, { kind: 'remedy-done' }]],
  ['closing', [safe, popping, dry, { kind: 'remedy-done' }, { kind: 'verified', outcome: 'cured' }]],
  ['parked', [safe, { kind: 'parked', note: 'end of shift' }]],
  ['handed-over', [safe, { kind: 'handed-over', note: 'needs a new heater block' }]],
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

/** What somebody did, so that course and class have something to show. */
const TRAINED: readonly InputOf<'training:keep'>['done'][] = [
  { kind: 'read', lesson: 'moving-parts' },
  {
    kind: 'case',
    run: {
      seed: 1,
      scenario: 'ghosts-at-the-corner',
      actions: [
        { kind: 'check', observation: 'belt-pluck-low', readCautions: true },
        { kind: 'name-cause', cause: 'belt-loose', confidence: 0.8 },
      ],
    },
  },
  {
    kind: 'case',
    run: {
      seed: 1,
      scenario: 'the-humid-week',
      actions: [{ kind: 'name-cause', cause: 'desiccant-exhausted', confidence: 0.6 }],
    },
  },
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
  const shop = await ask(station.call('demo:load', {}));
  const spool = shop.spools.find((one) => one.polymer === 'abs' && one.storage === 'open') ?? shop.spools[0];
  const addresses = [
    'bench',
    'intake',
    'inbox',
    'casebook',
    'recurrence',
    'meeting',
    'guide-use',
    'maintenance',
    'spreadsheet',
    'bin',
    'experience',
    'learn',
    'practice',
    'practice/the-humid-week',
    'class',
    'session',
    'vote',
    'checklist',
    'drill/stations',
    'drill/drying',
    'materials',
    'flow',
    'guide',
    'shop',
    'devices',
    'settings',
  ];
  addresses.push(
    'guide/cause/wet-filament',
    'guide/material/abs',
    'guide/observation/stringing',
    'guide/remedy/dry-the-spool',
    'guide/mechanism/steam-in-melt',
    'guide/practice/spool-left-open',
  );
  addresses.push(
    `spool/${spool?.id ?? ''}`,
    'labels',
    `printer/${shop.printers[0]?.id ?? ''}`,
    'printer-codes',
  );
  const personId = shop.people[0]?.id ?? '';
  for (const [index, done] of TRAINED.entries())
    await ask(
      station.call('training:keep', { personId, resultId: `01ARZ3NDEKTSV4RRFFQ69G6FA${index}`, done }),
    );
  addresses.push(`learn/${personId}`, `sign-off/${personId}`);
  for (const [, events] of STATES) {
    const { caseId } = await ask(station.call('case:open', opened));
    for (const [index, event] of events.entries())
      await ask(station.call('case:send', { caseId, revision: index + 1, event }));
    addresses.push(`case/${caseId}`);
  }
  addresses.push(addresses.at(-1)?.replace('case/', 'timeline/') ?? '');
  return addresses;
}

/** Nothing asked and nothing answered for this long: the screen has read what it shows. */
const QUIET_MS = 150;
const lastTraffic = new WeakMap<Page, { underWay: number; at: number }>();

/** Opens a screen and waits until it has read what it shows; a sheet that the guide does not know is an error. */
export async function visit(page: Page, station: StationProcess, address: string): Promise<void> {
  const traffic = lastTraffic.get(page) ?? watchTraffic(page);
  traffic.at = performance.now();
  await page.goto(`${station.address}#/${address}`);
  await isShown(page);
  await page.locator('main h1').first().waitFor();
  while (traffic.underWay > 0 || performance.now() - traffic.at < QUIET_MS) await page.waitForTimeout(20);
  await page.getByText(/^Reading .* …$/).waitFor({ state: 'hidden' });
  if (await page.getByText('There is no entry of that name').isVisible())
    throw new Error(`${address} is not in the guide: mend the list of addresses`);
}

function watchTraffic(page: Page) {
  const traffic = { underWay: 0, at: 0 };
  lastTraffic.set(page, traffic);
  const count = (by: number) => (request: Request) => {
    // The stream of changes stays open.
    if (new URL(request.url()).pathname === '/changes') return;
    traffic.underWay += by;
    traffic.at = performance.now();
  };
  page.on('request', count(1));
  page.on('requestfinished', count(-1));
  page.on('requestfailed', count(-1));
  return traffic;
}
