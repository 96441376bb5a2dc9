import { CONDITION } from '../contract/relied-on-conditions.ts';
import type { CaseEvent } from '../contract/case-event.ts';
import { knownToFail, type Conditions } from '../knowledge/conditions.ts';
import type { Knowledge } from '../knowledge/knowledge.ts';
import type { LoggedEvent } from '../session/logged-event.ts';
import type { DemoShop } from './demo-shop.ts';
import { drawIndex, seededRandom, type Random } from './seeded-random.ts';
import { bringsOnPartOf, drawCauses, drawWorld } from './simulated-world.ts';

const MONTHS = 12;
const MONTH_MS = (365.25 / 12) * 24 * 3600 * 1000;
const MINUTE_MS = 60_000;
/** The newest cases are left unfinished, so that lists show work in hand. */
const LEFT_OPEN = 4;

export interface DemoCase {
  readonly printer: number;
  readonly spool: number;
  readonly log: readonly LoggedEvent[];
}

/** Ids of the records the cases refer to, in the order of the demo shop's lists. */
export interface DemoIds {
  readonly printers: readonly string[];
  readonly spools: readonly string[];
}

/**
 * A year of invented cases before `endMs`, drawn from the guide's own network. The same seed gives the same year.
 * `onProgress` is told the share drawn.
 */
export function demoCases(
  knowledge: Knowledge,
  shop: DemoShop,
  ids: DemoIds,
  endMs: number,
  onProgress: (share: number) => void = () => undefined,
): readonly DemoCase[] {
  const random = seededRandom(shop.seed);
  const planned: { printer: number; monthsAgo: number; openedMs: number }[] = [];
  shop.printers.forEach((printer, index) => {
    for (let month = 0; month < MONTHS; month++) {
      const { casesPerMonth } = manner(printer, MONTHS - month);
      const whole = Math.floor(casesPerMonth);
      const count = whole + (random() < casesPerMonth - whole ? 1 : 0);
      for (let i = 0; i < count; i++) {
        planned.push({
          printer: index,
          monthsAgo: MONTHS - month,
          openedMs: endMs - (MONTHS - month - random()) * MONTH_MS,
        });
      }
    }
  });
  planned.sort((a, b) => a.openedMs - b.openedMs);
  return planned.flatMap(({ printer, monthsAgo, openedMs }, order) => {
    onProgress(order / planned.length);
    const isFinished = order < planned.length - LEFT_OPEN;
    const one = demoCase({ knowledge, shop, ids, printer, monthsAgo, openedMs, isFinished, random });
    return one ? [one] : [];
  });
}

/** How often and with what habits a printer runs, so many months before the end. */
function manner(
  { casesPerMonth, habits, since }: DemoShop['printers'][number],
  monthsAgo: number,
): { readonly casesPerMonth: number; readonly habits: Readonly<Record<string, number>> } {
  return since && monthsAgo <= since.monthsAgo ? since : { casesPerMonth, habits };
}

interface DemoCaseParts {
  readonly knowledge: Knowledge;
  readonly shop: DemoShop;
  readonly ids: DemoIds;
  readonly printer: number;
  readonly monthsAgo: number;
  readonly openedMs: number;
  readonly isFinished: boolean;
  readonly random: Random;
}

function demoCase(parts: DemoCaseParts): DemoCase | null {
  const { knowledge, shop, ids, random } = parts;
  const printer = shop.printers[parts.printer];
  const spoolIndex = Math.floor(random() * shop.spools.length);
  const spool = shop.spools[spoolIndex];
  if (!printer || !spool) return null;
  const conditions: Record<string, string | number> = {
    ...printer.conditions,
    polymer: spool.polymer,
    filler: spool.filler,
    storage: spool.storage,
    ...(spool.fillerPercent === undefined ? {} : { [CONDITION.fillerPercent]: spool.fillerPercent }),
  };
  for (const [change, share] of Object.entries(printer.lastChanges))
    if (random() < share) conditions[CONDITION.lastChange] = change;
  const { habits } = manner(printer, parts.monthsAgo);
  const causeIds = [...knowledge.causes.keys()];
  const priors = knowledge.priorsUnder(conditions).priors.map((prior, index) => {
    const odds = (prior / (1 - prior)) * (habits[causeIds[index] ?? ''] ?? 1);
    return odds / (1 + odds);
  });
  const observations = [...knowledge.observations.values()];
  for (let attempt = 0; attempt < 50; attempt++) {
    const causes = drawCauses(priors, random, (cause) => removers(knowledge, causeIds[cause]).length > 0);
    const atWork = new Set(causes);
    const world = drawWorld(knowledge.graph, causes, random);
    const levels = world.levelsWith(atWork);
    const without = world.levelsWith(new Set());
    const complaints = observations.flatMap((one, index) =>
      one.complaint && !one.danger && (levels[index] ?? 0) > 0 && (without[index] ?? 0) === 0 ? [index] : [],
    );
    const told = complaints.slice(0, 1 + Math.floor(random() * 2));
    // What was found in the end is what brought the complaint on, not everything that happened to be there.
    const found = causes.filter((cause) => bringsOnPartOf(world, cause, told));
    if (found.length === 0) continue;
    const events = eventsOf(parts, spoolIndex, conditions, found, levels, told);
    let atMs = parts.openedMs;
    const log = events.map((event, index) => {
      if (index > 0) atMs += (1 + random() * 9) * MINUTE_MS;
      return { seq: index + 1, at: new Date(atMs).toISOString(), event };
    });
    return { printer: parts.printer, spool: spoolIndex, log };
  }
  throw new Error(`the demo shop draws no complaint on ${ids.printers[parts.printer] ?? printer.label}`);
}

function eventsOf(
  { knowledge, shop, ids, printer, isFinished, random }: DemoCaseParts,
  spool: number,
  conditions: Record<string, string | number>,
  causes: readonly number[],
  levels: readonly number[],
  complaints: readonly number[],
): CaseEvent[] {
  const observationIds = [...knowledge.observations.keys()];
  const causeIds = [...knowledge.causes.keys()];
  const valueOf = (index: number) =>
    knowledge.levelsOf(observationIds[index] ?? '')[levels[index] ?? 0] ?? 'absent';
  const person = shop.people[Math.floor(random() * shop.people.length)];
  // Each spool is printed with the profile made for it.
  const profile = shop.profiles[spool % shop.profiles.length];
  const events: CaseEvent[] = [
    {
      kind: 'opened',
      intake: {
        printerId: ids.printers[printer] ?? null,
        spoolId: ids.spools[spool] ?? null,
        openedBy: person?.initials ?? null,
        conditions,
        complaints: complaints.map((index) => ({
          observation: observationIds[index] ?? '',
          value: valueOf(index),
        })),
        words: '',
        ...(profile !== undefined && { profile }),
      },
    },
    { kind: 'danger-answered', present: [] },
  ];
  for (const index of checksNear(knowledge, conditions, causes, complaints, random)) {
    events.push({ kind: 'answered', observation: observationIds[index] ?? '', value: valueOf(index) });
  }
  if (!isFinished) return events;

  const confirmed = causes.map((cause) => causeIds[cause] ?? '').filter((id) => knowledge.causes.has(id));
  for (const cause of confirmed) {
    const options = removers(knowledge, cause);
    const remedy = options[Math.floor(random() * options.length)];
    if (!remedy) continue;
    const isLast = cause === confirmed.at(-1);
    events.push(
      { kind: 'remedy-chosen', remedy },
      { kind: 'remedy-done' },
      { kind: 'verified', outcome: isLast ? 'cured' : 'better' },
    );
  }
  const practices = confirmed.flatMap((id) => knowledge.causes.get(id)?.practices ?? []);
  events.push({
    kind: 'closed',
    causes: confirmed.map((cause) => ({ cause })),
    practice: practices[0] ?? null,
    minutesLost: Math.round(20 + random() * random() * 400),
    gramsScrapped: Math.round(random() * random() * 350),
    note: '',
  });
  return events;
}

/** Remedies that remove a cause. */
function removers(knowledge: Knowledge, cause: string | undefined): string[] {
  return [...knowledge.remedies.values()]
    .filter((remedy) => remedy.removes.some((one) => one.cause === cause))
    .map((remedy) => remedy.id);
}

/**
 * Two to five observations that somebody would look at: mostly such as the causes show, now and then another check at the same
 * places. What people only tell, what makes sense of another kind of trouble and what this machine does not have is none of them.
 */
function checksNear(
  knowledge: Knowledge,
  conditions: Conditions,
  causes: readonly number[],
  complaints: readonly number[],
  random: Random,
): number[] {
  const observations = [...knowledge.observations.values()];
  const isNear = (index: number) =>
    knowledge.graph.observations[index]?.links.some(
      (link) => link.from.kind === 'cause' && causes.includes(link.from.index),
    ) === true;
  const told = new Set(complaints.map((index) => observations[index]?.id));
  const places = new Set(
    observations.flatMap(({ place }, index) => (complaints.includes(index) || isNear(index) ? [place] : [])),
  );
  const weights = observations.map((one, index) => {
    const isAsked =
      !complaints.includes(index) &&
      !one.danger &&
      !one.onlyWhenLedTo &&
      !(one.askedWhen && knownToFail(one.askedWhen, conditions)) &&
      (one.onlyAbout.length === 0 || one.onlyAbout.some((id) => told.has(id)));
    if (!isAsked) return 0;
    if (isNear(index)) return 1;
    return one.group === undefined && !one.complaint && places.has(one.place) ? 0.01 : 0;
  });
  const chosen: number[] = [];
  for (let left = 2 + Math.floor(random() * 4); left > 0; left--) {
    if (!weights.some((weight) => weight > 0)) break;
    const index = drawIndex(weights, random);
    weights[index] = 0;
    chosen.push(index);
  }
  return chosen;
}
