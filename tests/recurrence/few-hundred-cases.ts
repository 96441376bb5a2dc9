import type { ClosedCase, ReportParts } from '../../src-core/recurrence/report.ts';
import type { ShopCalendar } from '../../src-core/recurrence/shop-calendar.ts';
import { seededRandom } from '../../src-core/training/seeded-random.ts';

const FROM = Date.parse('2025-11-01T00:00:00Z');
const DAY_MS = 24 * 3_600_000;
const DAYS = 365;
const PRINTERS = ['A', 'B', 'C', 'D', 'E'];
const CAUSES = ['clog', 'wet', 'worn', 'belt', 'fan', 'bed', 'level'];
const HABITS = ['left-open', 'no-clean', null];

/** A year of some hundred closed cases with a fixed seed: some causes at home on a printer, one gone since spring. */
export function fewHundredCases(
  calendar: ShopCalendar,
  by: 'printer' | 'material' | 'practice',
): ReportParts {
  const random = seededRandom(20261127);
  const often = <T>(of: readonly T[]): T => of[Math.floor(random() ** 2 * of.length)] as T;
  const cases = Array.from({ length: 400 }, (_, n): ClosedCase => {
    const openedMs = FROM + Math.floor((DAYS * DAY_MS * (n + random())) / 400);
    const cause = openedMs < FROM + 150 * DAY_MS && random() < 0.3 ? 'belt' : often(CAUSES);
    const printerId = cause === 'worn' && random() < 0.6 ? 'D' : often(PRINTERS);
    const material = often(['PLA', 'PETG', 'ASA', null]);
    return {
      openedMs,
      printerId,
      causes: random() < 0.1 ? [cause, 'wet'] : [cause],
      practice: often(HABITS),
      minutesLost: Math.round(1000 * random()) / 10,
      gramsScrapped: Math.round(3000 * random()) / 10,
      where: by === 'material' ? material : printerId,
    };
  });
  return {
    by,
    cases,
    stretches: new Map(
      PRINTERS.map((id, n) => [
        id,
        Array.from({ length: 12 }, (_, month) => ({
          fromMs: FROM + month * 30 * DAY_MS,
          toMs: FROM + (month + 1) * 30 * DAY_MS,
          hours: 100 + 35 * n + 7 * month,
        })),
      ]),
    ),
    estimated: new Set<string>(),
    usualHours: {},
    printersOf: by === 'material' ? null : new Map(PRINTERS.map((id) => [id, [id]])),
    calendar,
    fromMs: FROM,
    toMs: FROM + DAYS * DAY_MS,
    moneyPerMinute: 0.75,
    currency: 'EUR',
    whereLabel: (where) => where,
    whatLabel: (what) => what,
    printerLabel: (id) => id,
    practicesOf: () => [],
    practice: (id) => ({ label: id, better: '' }),
  };
}
