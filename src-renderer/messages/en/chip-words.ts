import { messages } from '../messages.ts';

export const m = messages('chipWords', {
  betterNotCured: 'better, not cured',
  noBetter: 'no better',
  not: 'Not: {label}',
  printer: 'Printer: {find}',
  spool: 'Spool: {find}',
  tried: 'Tried: {remedies}, {how}',
});
