import { messages } from '../messages.ts';

export const m = messages('minutesWords', {
  thenWaiting: '{hands}, then {duration} waiting',
});
