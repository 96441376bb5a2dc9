import { catalogue } from '../message.ts';

/** How long a spool is dried, in the guide's sentence "Dry at … for …". */
export const dryingTexts = catalogue('drying', {
  aFewHours: 'a few hours to be sure (by where it has been, this spool is dry enough already)',
  airTooDamp:
    'as long as you can, but in room air this spool will not get dry enough: it needs a dryer with dried air',
  planned: '{likelyHours} to {slowHours} h, worked out for this spool',
  plannedAndWeigh:
    '{likelyHours} to {slowHours} h, worked out for this spool, and weigh it: it may stay damp',
  plannedOrMore: '{likelyHours} to more than {longestHours} h, worked out for this spool',
  plannedOrMoreAndWeigh:
    '{likelyHours} to more than {longestHours} h, worked out for this spool, and weigh it: it may stay damp',
  temperature: '{temperature}',
  tooSlow:
    '{longestHours} h and more: at this temperature the water leaves this spool too slowly, so ask the lead for a better dryer or another spool',
});
