import { messages } from '../messages.ts';

export const m = messages('chanceWords', {
  above99: 'above 99\u00a0%',
  below001: 'below 0.01\u00a0%',
  below001InSentence: 'below 0.01',
});
