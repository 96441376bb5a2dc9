import { messages } from '../messages.ts';

export const m = messages('period', {
  allTime: 'All time',
  fromTo: 'From … to …',
  last12Months: 'Last 12 months',
  last30Days: 'Last 30 days',
  last3Months: 'Last 3 months',
  last6Months: 'Last 6 months',
  theFirstDayLiesAfterThe: 'The first day lies after the last one.',
});
