import { messages } from '../messages.ts';

export const m = messages('inbox', {
  aCaseThatSomebodyHandsOver:
    'A case that somebody hands over or parks stands here, with what it waits for and by when.',
  actionsAreDue: '{dueActions, plural, one {1 action is due} other {# actions are due}}',
  handedOver: 'Handed over',
  inbox: 'Inbox',
  noPrinter: 'No printer',
  nothingHandedOver: 'Nothing handed over',
  parked: 'Parked',
  seeAllAndAct: 'See all {count}, and say what is done about them',
  seeAndAct: 'See what comes back, and say what is done about it',
  standsOut: 'Stands out, and nobody acts on it yet',
  stopped: 'Stopped by a danger sign',
  toBeLookedAt: 'To be looked at',
  waitingForAPart: 'Waiting for a part',
  whatWasHandedOver: 'what was handed over',
});
