import { catalogue } from '../message.ts';

/** Values of findings, and answers, where they stand by themselves. */
export const valueTexts = catalogue('values', {
  absent: 'Absent',
  asBefore: '{value}, as before',
  beforeAnything: '{cause}, before anything was found',
  better: 'Better, not cured',
  countersRead: 'Counters read',
  cured: 'Cured',
  gone: 'gone',
  handOver: 'Hand the case to the lead',
  itIsSo: 'It is so: {what}',
  itIsThere: 'It is there',
  lessThanBefore: '{value}, less than before',
  no: 'No',
  notCured: 'Not cured',
  nothingOfThat: 'Nothing of that kind',
  only: '{value}',
  present: 'Present',
  withBand: '{quantity} ({band})',
  yes: 'Yes',
});
