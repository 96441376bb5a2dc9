import { inSentence } from '../words/in-sentence.ts';
import type { ConfirmedCause } from '../contract/case-event.ts';
import type { Knowledge } from '../knowledge/knowledge.ts';
import { valueTexts } from '../words/en/values.ts';
import type { Words } from '../words/message.ts';
import { measuresDifference, quantityOf } from './quantity.ts';

const { m } = valueTexts;

/** Labels of what a case names. Unknown ids (an older guide's) show as they are. */
export function observationLabel(knowledge: Knowledge, id: string): string {
  return knowledge.observations.get(id)?.label ?? id;
}

export function causeLabel(knowledge: Knowledge, id: string): string {
  return knowledge.causes.get(id)?.label ?? id;
}

export function remedyLabel(knowledge: Knowledge, id: string): string {
  return knowledge.remedies.get(id)?.label ?? id;
}

/** A finding's value as people say it: "Present", "Slight", "1.62 mm (thin)". */
export function valueLabel(knowledge: Knowledge, observation: string, value: string | number): Words {
  const entry = knowledge.observations.get(observation);
  if (typeof value === 'number') {
    const band = entry?.measure?.bands.find(
      (one) => value >= (one.from ?? -Infinity) && value < (one.below ?? Infinity),
    );
    const quantity = quantityOf(value, entry?.measure?.unit ?? '', measuresDifference(entry?.measure));
    return band ? m.withBand({ quantity, band: inSentence(band.label) }) : m.only({ value: quantity });
  }
  const named = [...(entry?.grades ?? []), ...(entry?.measure?.bands ?? [])].find((one) => one.id === value);
  if (named) return named.label;
  if (value === 'present') return m.present();
  return value === 'absent' ? m.absent() : value;
}

/** A condition's value as people say it: "ABS", "0.8 mm". */
export function conditionValueLabel(knowledge: Knowledge, id: string, value: string | number): Words {
  if (typeof value === 'string') return choiceLabel(knowledge, id, value);
  return m.only({ value: quantityOf(value, knowledge.conditions.get(id)?.number?.unit ?? '', false) });
}

/** A condition's value where it is one of a list, as the guide calls it: "ABS". */
export function choiceLabel(knowledge: Knowledge, id: string, value: string): string {
  return knowledge.conditions.get(id)?.values?.find((one) => one.id === value)?.label ?? value;
}

export function confirmedCauseLabel(knowledge: Knowledge, confirmed: ConfirmedCause): string {
  return 'cause' in confirmed ? causeLabel(knowledge, confirmed.cause) : confirmed.named;
}
