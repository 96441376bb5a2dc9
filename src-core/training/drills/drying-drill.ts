import type { RoomClimate } from '../../contract/spool-life.ts';
import type { Knowledge } from '../../knowledge/knowledge.ts';
import { computeSpool } from '../../moisture/index.ts';
import { materialLabelOf } from './material-label.ts';
import type { Random } from '../seeded-random.ts';
import { pickOne, type SetDrill } from './drill-question.ts';

const POLYMERS = ['pla', 'petg', 'abs', 'pa6', 'pa12', 'pc', 'tpu'] as const;
const OPEN_DAYS = [1, 3, 7, 21] as const;
const ROOMS_RH = [35, 50, 65] as const;
const DRYERS_C = [50, 65, 80, 95] as const;
const DEADLINES_H = [4, 8, 12, 24, 48] as const;
const HOUR_CHOICES = [2, 4, 6, 8, 12, 16, 24, 36, 48, 72] as const;
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
  const climate: RoomClimate = { kind: 'measured', temperatureC: 22, percentRh };
  const { drying } = computeSpool({
    knowledge,
    make: {
      polymer,
      filler: 'none',
      fillerPercent: null,
      filamentDiameterMm: 1.75,
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
  const heldBack =
    drying.heldBackBy === 'filament'
      ? 'more would soften the filament'
      : drying.heldBackBy === 'spool'
        ? 'more would soften the spool it is wound on'
        : 'that is all this dryer gives';
  return {
    task: 'A job needs this spool. Plan the drying so that it will be dry even if the filament is a slow one.',
    facts: [
      { label: 'Filament', value: `1 kg of ${materialLabelOf(knowledge, polymer)}, 1.75 mm` },
      { label: 'Stood in the open', value: days === 1 ? 'a day' : `${days} days` },
      { label: 'Room', value: `22 °C, ${percentRh} % humidity` },
      { label: 'Dryer', value: `up to ${dryerTemperatureC} °C beside the spool, with air of the room` },
      { label: 'Wound on', value: knowledge.spoolBodies.get(body)?.label ?? body },
      { label: 'The job starts in', value: `${deadline} h` },
    ],
    questions: [
      {
        id: 'temperature',
        label: 'Set the dryer to',
        choices: temperatures.map((one) => ({ id: String(one), label: `${one} °C` })),
        right: () => [String(setTo)],
        why: () => `${setTo} °C: ${heldBack}.`,
      },
      {
        id: 'hours',
        label: 'Plan',
        choices: HOUR_CHOICES.map((one) => ({ id: String(one), label: `${one} h` })),
        // The next step up is careful, not wrong.
        right: () => [
          String(planned),
          ...HOUR_CHOICES.filter((one) => one > planned)
            .slice(0, 1)
            .map(String),
        ],
        why: () =>
          `${warm.toFixed(1)} h: ${drying.warmUpHours.toFixed(1)} h until the winding is warm, then ${hours.toFixed(1)} h for a slow filament.`,
      },
      {
        id: 'deadline',
        label: 'Will it be dry in time?',
        choices: [
          { id: 'yes', label: 'Yes' },
          { id: 'no', label: 'No: take another spool, or start later' },
        ],
        right: () => [warm <= deadline ? 'yes' : 'no'],
        why: () => `It takes ${warm.toFixed(1)} h and the job starts in ${deadline} h.`,
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
