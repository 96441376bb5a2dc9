import { CONDITION, type ReliedOnCondition } from '../contract/relied-on-conditions.ts';
import type { FitVerdict } from '../contract/fit-verdicts.ts';
import type { Application, FitReport, Judgement, MaterialFit } from '../contract/material-fit.ts';
import type { FileReading } from '../contract/job-report.ts';
import type { Knowledge } from '../knowledge/knowledge.ts';
import { fitTexts } from '../words/en/fit.ts';
import { celsius } from '../words/message.ts';

const { m } = fitTexts;

type FailedPart = NonNullable<FitReport['failedPart']>;

/** Values of the conditions, by verdict; what is not known says nothing. */
const VALUE_OF: Readonly<Record<FitVerdict, string | null>> = {
  suits: 'enough',
  'suits-with-limits': 'close',
  'does-not-suit': 'short',
  'not-known': null,
};
const WORSE_FIRST: readonly FitVerdict[] = ['does-not-suit', 'suits-with-limits', 'not-known', 'suits'];

/** Conditions of a case and the judgements that give them. Damp is left to the rules about swelling. */
const CONDITIONS: readonly {
  readonly id: ReliedOnCondition;
  readonly of: (judgement: Judgement) => boolean;
}[] = [
  { id: CONDITION.fitHeat, of: ({ demand }) => demand === 'heat' },
  { id: CONDITION.fitLoad, of: ({ demand }) => demand === 'steady-load' },
  { id: CONDITION.fitImpact, of: ({ demand }) => demand === 'impact' },
  { id: CONDITION.fitLight, of: ({ demand }) => demand === 'light' },
  { id: CONDITION.fitChemicals, of: ({ demand }) => demand === 'chemicals' },
  { id: CONDITION.fitWear, of: ({ demand }) => demand === 'sliding' },
];

/**
 * What the fit of its material says about a part that failed: conditions for a case, each with its reason, and the causes
 * that these make likelier. Only demands that were stated count; "not known" gives no condition.
 */
export function explainFailedPart(
  knowledge: Pick<Knowledge, 'conditions' | 'causes'>,
  fit: MaterialFit,
  application: Application,
): FailedPart {
  const readings = CONDITIONS.flatMap(({ id, of }): FileReading[] => {
    const worst = WORSE_FIRST.map((verdict) =>
      fit.judgements.find((one) => one.verdict === verdict && of(one)),
    ).find((one) => one !== undefined);
    const value = worst ? VALUE_OF[worst.verdict] : null;
    const condition = knowledge.conditions.get(id);
    const valueLabel = condition?.values?.find((one) => one.id === value)?.label;
    if (!worst || value === null || !condition || valueLabel === undefined) return [];
    const temperature = celsius(application.serviceTemperatureC);
    const because = [
      m.workedOutFor({ material: fit.label, temperature, demand: worst.label }),
      ...worst.reason,
    ];
    return [{ kind: 'condition', id, label: condition.label, value, valueLabel, because }];
  });
  return { fit, readings, pointsTo: causesPointedTo(knowledge, readings) };
}

function causesPointedTo(
  { causes }: Pick<Knowledge, 'causes'>,
  readings: readonly FileReading[],
): FailedPart['pointsTo'] {
  return [...causes.values()]
    .flatMap(({ id, label, movedBy }) =>
      readings.flatMap((reading) =>
        movedBy
          .filter(
            ({ when, timesOdds }) =>
              when[reading.id] === reading.value && timesOdds > 1 && reading.value !== 'enough',
          )
          .map(({ timesOdds }) => ({ cause: id, label, timesOdds, because: reading.because })),
      ),
    )
    .sort((a, b) => b.timesOdds - a.timesOdds);
}
