import { messages } from '../messages.ts';

export const m = messages('waitWords', {
  readyAtIn: 'Ready at {at}, in {duration}',
  theWaitIsOverSince: 'The wait is over since {at}',
});
