import { messages } from '../messages.ts';

export const m = messages('roleWords', {
  lead: 'Lead',
  operator: 'Operator',
  trainer: 'Trainer',
});
