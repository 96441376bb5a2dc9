import type { RoomClimate } from '../../contract/spool-life.ts';
import type { Knowledge } from '../../knowledge/knowledge.ts';
import { computeSpool } from '../../moisture/index.ts';
import { materialLabelOf } from './material-label.ts';
import { drillTexts } from '../../words/en/drills.ts';
import { valueTexts } from '../../words/en/values.ts';
import { celsius, fixed } from '../../words/message.ts';
import type { Random } from '../seeded-random.ts';
import { pickOne, type SetDrill } from './drill-question.ts';

const { m } = drillTexts;

const POLYMERS = ['pla', 'petg', 'abs', 'pa6', 'pa12', 'pc', 'tpu'] as const;
const OPEN_DAYS = [1, 3, 7, 21] as const;
const ROOMS_RH = [35, 50, 65] as const;
const DRYERS_C = [50, 65, 80, 95] as const;
const DEADLINES_H = [4, 8, 12, 24, 48] as const;
const HOUR_CHOICES = [2, 4, 6, 8, 12, 16, 24, 36, 48, 72] as const;
const DIAMETER_MM = 1.75;
const ROOM_C = 22;
const HOUR_MS = 3_600_000;
/** Any moment will do: the drill is the same at any time. */
const NOW_MS = Date.UTC(2026, 0, 15, 12);

/** A spool that stood in the open, a dryer and a deadline: temperature, hours and whether it can be met, by the drying sums. */
export function dryingDrill(knowledge: Knowledge, random: Random): SetDrill | null {
  const polymer = pickOne(
    POLYMERS.filter((id) => knowledge.water.has(id)),
    random,
  );
  const days = pickOne(OPEN_DAYS, random);
  const percentRh = pickOne(ROOMS_RH, random);
  const dryerTemperatureC = pickOne(DRYERS_C, random);
  const deadline = pickOne(DEADLINES_H, random);
  const body = [...knowledge.spoolBodies.keys()][0] ?? 'plastic';
  const climate: RoomClimate = { kind: 'measured', temperatureC: ROOM_C, percentRh };
  const { drying } = computeSpool({
    knowledge,
    make: {
      polymer,
      filler: 'none',
      fillerPercent: null,
      filamentDiameterMm: DIAMETER_MM,
      filamentGrams: 1000,
      openedAt: new Date(NOW_MS - days * 24 * HOUR_MS).toISOString(),
      storage: 'open',
    },
    body,
    log: [],
    climate,
    question: { flowMm3PerS: 8, dryerTemperatureC, isDryAir: false, targetPercent: null },
    nowMs: NOW_MS,
  });
  const hours = drying?.kind === 'plan' ? hoursToPlan(drying.outerHours, drying.innerHours) : null;
  if (!drying || hours === null || drying.mayStayDamp) return null;
  const warm = drying.warmUpHours + hours;
  const planned = HOUR_CHOICES.find((choice) => choice >= warm);
  if (planned === undefined) return null;
  const setTo = Math.floor(drying.temperatureC);
  const temperatures = [...new Set([...DRYERS_C, setTo])]
    .filter((one) => one >= setTo - 25)
    .sort((a, b) => a - b);
  const whyNotHotter =
    drying.heldBackBy === 'filament'
      ? m.aboveSoftensFilament
      : drying.heldBackBy === 'spool'
        ? m.aboveSoftensSpool
        : m.dryerGivesNoMore;
  return {
    task: m.dryingTask(),
    facts: [
      {
        label: m.filament(),
        value: m.kilogramOfDiameter({
          material: materialLabelOf(knowledge, polymer),
          diameterMm: DIAMETER_MM,
        }),
      },
      { label: m.stoodInTheOpen(), value: m.days({ count: days }) },
      { label: m.room(), value: m.roomAir({ temperature: celsius(ROOM_C), percent: percentRh }) },
      { label: m.dryer(), value: m.dryerBeside({ temperature: celsius(dryerTemperatureC) }) },
      { label: m.woundOn(), value: knowledge.spoolBodies.get(body)?.label ?? body },
      { label: m.jobStartsIn(), value: m.hours({ hours: deadline }) },
    ],
    questions: [
      {
        id: 'temperature',
        label: m.setDryerTo(),
        choices: temperatures.map((one) => ({
          id: String(one),
          label: valueTexts.m.only({ value: celsius(one) }),
        })),
        right: () => [String(setTo)],
        why: () => whyNotHotter({ temperature: celsius(setTo) }),
      },
      {
        id: 'hours',
        label: m.plan(),
        choices: HOUR_CHOICES.map((one) => ({ id: String(one), label: m.hours({ hours: one }) })),
        // The next step up is careful, not wrong.
        right: () => [
          String(planned),
          ...HOUR_CHOICES.filter((one) => one > planned)
            .slice(0, 1)
            .map(String),
        ],
        why: () =>
          m.dryingTakes({
            hours: fixed(warm, 1),
            warmUpHours: fixed(drying.warmUpHours, 1),
            slowHours: fixed(hours, 1),
          }),
      },
      {
        id: 'deadline',
        label: m.dryInTime(),
        choices: [
          { id: 'yes', label: m.yes() },
          { id: 'no', label: m.noTakeAnother() },
        ],
        right: () => [warm <= deadline ? 'yes' : 'no'],
        why: () => m.takesAndStarts({ hours: fixed(warm, 1), deadlineHours: deadline }),
      },
    ],
  };
}

function hoursToPlan(
  outer: { readonly high: number | null } | null,
  inner: { readonly high: number | null } | null,
): number | null {
  if (outer?.high == null || inner?.high == null) return null;
  return Math.max(outer.high, inner.high);
}
