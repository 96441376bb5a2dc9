import { messages } from '../messages.ts';

export const m = messages('whenWords', {
  below: 'below {rest}',
  from: 'from {rest}',
  ofCondition: '{label}: {values}',
});
