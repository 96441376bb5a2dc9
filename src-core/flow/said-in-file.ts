import { CONDITION } from '../contract/relied-on-conditions.ts';
import type { Knowledge } from '../knowledge/knowledge.ts';
import type { Material } from '../knowledge/schema.ts';
import { flowTexts } from '../words/en/flow.ts';
import type { FileNotes } from './comment-notes.ts';
import type { JobMachine, JobReading, JobRemark } from './job-readings.ts';

const { m } = flowTexts;

/** Bores closer than this are the same: files round. */
const SAME_BORE_MM = 0.04;
/** The guide's own bound for a filament diameter that is set wrong. */
const SAME_DIAMETER_MM = 0.05;

/**
 * What a job file says of itself, held against the printer and spool it is to run on. What neither says is taken from the
 * file; where they differ that is a finding, or a remark where the guide has none.
 */
export function saidInFile(
  knowledge: Pick<Knowledge, 'materials'>,
  said: FileNotes,
  machine: JobMachine,
): { readonly readings: readonly JobReading[]; readonly remarks: readonly JobRemark[] } {
  const readings: JobReading[] = [];
  const remarks: JobRemark[] = [];
  const { nozzleMm, filamentDiameterMm, material } = said;
  if (nozzleMm !== null) {
    if (machine.nozzleMm === null)
      readings.push({
        kind: 'condition',
        id: CONDITION.nozzleMm,
        value: nozzleMm,
        because: m.nozzleSaid({ saidMm: nozzleMm }),
      });
    else {
      const isSame = Math.abs(nozzleMm - machine.nozzleMm) < SAME_BORE_MM;
      readings.push({
        kind: 'finding',
        id: 'nozzle-not-as-in-profile',
        value: isSame ? 'absent' : 'present',
        because: isSame
          ? m.nozzleSaidSame({ saidMm: nozzleMm })
          : m.nozzleSaidUnlike({ saidMm: nozzleMm, hereMm: machine.nozzleMm }),
      });
    }
  }
  if (
    filamentDiameterMm !== null &&
    Math.abs(filamentDiameterMm - machine.filamentDiameterMm) >= SAME_DIAMETER_MM
  )
    readings.push({
      kind: 'finding',
      id: 'diameter-set-unlike-filament',
      value: 'present',
      because: m.diameterUnlike({ saidMm: filamentDiameterMm, hereMm: machine.filamentDiameterMm }),
    });
  const polymer = material === null ? null : polymerNamed(knowledge, material);
  if (material !== null && polymer && machine.polymer === null)
    readings.push({
      kind: 'condition',
      id: CONDITION.polymer,
      value: polymer.id,
      because: m.materialNamed({ material }),
    });
  if (material !== null && polymer && machine.polymer !== null && polymer.id !== machine.polymer)
    remarks.push({
      text: m.materialUnlike({
        material,
        here: knowledge.materials.get(machine.polymer)?.label ?? machine.polymer,
      }),
      at: null,
    });
  return { readings, remarks };
}

/** The polymer that a word for a material names, a filler after it passed over ("PA6-CF"); null where the guide has none. */
export function polymerNamed({ materials }: Pick<Knowledge, 'materials'>, word: string): Material | null {
  const polymers = [...materials.values()].filter(({ kind }) => kind === 'polymer');
  const named = (plain: string) =>
    polymers.find((one) => [one.id, one.label, ...one.alsoCalled].some((name) => plainOf(name) === plain)) ??
    null;
  return (
    named(plainOf(word)) ??
    named(plainOf(word.replace(/[\s-]*(cf|gf|carbon fib(er|re)|glass fib(er|re))\s*\d*$/i, '')))
  );
}

function plainOf(name: string): string {
  return name.toLowerCase().replace(/[^a-z0-9+]/g, '');
}
