import { messages } from '../messages.ts';

export const m = messages('statusWords', {
  aQualifiedPerson: 'A qualified person',
  answerTheDangerCheck: '{operator}: answer the danger check',
  carryOutTheRemedy: '{operator}: carry out the remedy',
  check: '{operator}: check',
  chooseWhatToDo: '{operator}: choose what to do',
  closeTheCase: '{operator}: close the case',
  closed: 'Closed',
  doNotUse: 'Do not use',
  inTrouble: 'In trouble',
  makeItSafe: '{operator}: make it safe',
  operator: 'Operator',
  parked: 'Parked',
  running: 'Running',
  seeWhetherItWorked: '{operator}: see whether it worked',
  theLead: 'The lead',
  waiting: 'Waiting',
});
