import { messages } from '../messages.ts';

export const m = messages('strengthWords', {
  atLeast: 'at least {label}: {strength}',
});
