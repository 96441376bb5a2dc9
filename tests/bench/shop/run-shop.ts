import type { ChildProcess } from 'node:child_process';
import path from 'node:path';
import { setTimeout as after } from 'node:timers/promises';
import type { Server } from '../../postgres/server.ts';
import { ended } from '../../processes/ended.ts';
import { launchStation, type StationProcess } from '../../processes/launch-station.ts';
import { faultsOf } from './check.ts';
import { Tablet } from './tablet.ts';

export interface ShopSettings {
  readonly tablets: number;
  readonly stations: number;
  readonly seconds: number;
  /** Between two answers of one tablet somebody looks at a printer, millisecond. */
  readonly pauseMs: number;
  /** The server that all stations work with, and the address of a database on it; null for one station on a file. */
  readonly postgres: { readonly server: Server; readonly address: string } | null;
  /** A folder for the stations' own files. */
  readonly folder: string;
  /** The first of the ports that stations take: two for each. */
  readonly port: number;
}

export interface ShopFigures {
  readonly answers: number;
  readonly p50Ms: number;
  readonly p99Ms: number;
  readonly stale: number;
  readonly unsure: number;
  readonly cases: number;
  /** What a tablet was told and is not so; empty as it should be. */
  readonly faults: readonly string[];
}

/**
 * A shop at work: tablets at one or more stations. After a third of the time a station is killed and started again, after two
 * thirds the database. At the end what is kept is held against what each tablet was told.
 */
export async function runShop(settings: ShopSettings): Promise<ShopFigures> {
  const begun: ChildProcess[] = [];
  try {
    return await playShop(settings, begun);
  } finally {
    await Promise.all(begun.map((child) => ended(child, 'SIGKILL')));
  }
}

async function playShop(settings: ShopSettings, begun: ChildProcess[]): Promise<ShopFigures> {
  const { tablets: count, seconds, pauseMs, postgres } = settings;
  const launch = (index: number) =>
    launchStation(
      path.join(settings.folder, 'casebook.sqlite'),
      (child) => begun.push(child),
      settings.port + 2 * index,
      undefined,
      {
        BEADWRIGHT_LISTEN: `127.0.0.1:${settings.port + 2 * index + 1}`,
        BEADWRIGHT_PLAIN_HTTP: '1',
        BEADWRIGHT_STATION_FILE: path.join(settings.folder, `station-${index}.json`),
        ...(postgres && { BEADWRIGHT_DATABASE: postgres.address }),
      },
    );
  const stations: StationProcess[] = await Promise.all(
    Array.from({ length: settings.stations }, (_, index) => launch(index)),
  );
  const tablets = await Promise.all(
    Array.from({ length: count }, async (_, number) => {
      const index = number % stations.length;
      const tablet = new Tablet(number, settings.port + 2 * index + 1, pauseMs);
      await tablet.join(await codeFrom(stations[index], number));
      return tablet;
    }),
  );
  const sharedCase = await openShared(stations[0]);
  const playing = Promise.all(tablets.map((tablet) => tablet.play(sharedCase)));

  const third = (seconds * 1000) / 3;
  await after(third);
  const last = stations.length - 1;
  await stations[last]?.killAtOnce();
  await after(500);
  stations[last] = await launch(last);
  await after(third);
  if (postgres) {
    postgres.server.stop('immediate');
    await after(1000);
    postgres.server.start();
  }
  await after(third);
  for (const tablet of tablets) tablet.end();
  await playing;

  const { kept, numbers } = await everythingKept(stations[0]);
  await Promise.all(stations.map((station) => station.stop()));
  const took = tablets.flatMap(({ tookMs }) => tookMs).sort((a, b) => a - b);
  const at = (share: number) => took[Math.floor(share * (took.length - 1))] ?? 0;
  return {
    answers: took.length,
    p50Ms: at(0.5),
    p99Ms: at(0.99),
    stale: tablets.reduce((sum, { stale }) => sum + stale, 0),
    unsure: tablets.reduce((sum, { unsure }) => sum + unsure, 0),
    cases: kept.length,
    faults: faultsOf(tablets, kept, numbers),
  };
}

async function codeFrom(station: StationProcess | undefined, number: number): Promise<string> {
  const invited = await station?.call('access:invite', {
    label: `Tablet ${number}`,
    role: 'operator',
    printerId: null,
  });
  if (!invited?.ok) throw new Error(`no code for tablet ${number}: ${invited?.error.message}`);
  return invited.value.code;
}

async function openShared(station: StationProcess | undefined): Promise<string> {
  const opened = await station?.call('case:open', {
    complaints: [{ observation: 'stringing', value: 'slight' }],
  });
  if (!opened?.ok) throw new Error(opened?.error.message ?? 'no station');
  return opened.value.caseId;
}

async function everythingKept(station: StationProcess | undefined) {
  if (!station) throw new Error('no station');
  const kept: Parameters<typeof faultsOf>[1][number][] = [];
  for (let next: string | null = null; ;) {
    const page: Awaited<ReturnType<typeof station.call<'case:export'>>> = await station.call('case:export', {
      caseIds: null,
      after: next,
    });
    if (!page.ok) throw new Error(page.error.message);
    for (const line of page.value.jsonLines.split('\n').filter(Boolean))
      kept.push(JSON.parse(line) as (typeof kept)[number]);
    next = page.value.next;
    if (next === null) break;
  }
  const numbers: number[] = [];
  for (let offset = 0; ; offset += 200) {
    const page = await station.call('case:list', { limit: 200, offset });
    if (!page.ok) throw new Error(page.error.message);
    numbers.push(...page.value.rows.map(({ number }) => number));
    if (page.value.rows.length < 200) return { kept, numbers };
  }
}
