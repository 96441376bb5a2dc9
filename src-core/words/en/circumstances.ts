import { catalogue } from '../message.ts';

/** How a circumstance of a case came to be known, where nobody said it. */
export const circumstanceTexts = catalogue('circumstances', {
  countedAbrasiveHours:
    'Counted from the maintenance log: “{task}” was last done on {day}, about {hours} print hours with abrasive filament since.',
  countedAbrasiveHoursPartly:
    'Counted from the maintenance log: “{task}” was last done on {day}, about {hours} print hours with abrasive filament since, partly an estimate as the meter was not read of late.',
  countedDays:
    'Counted from the maintenance log: “{task}” was last done on {day}, {count, plural, one {# day} other {# days}} ago.',
  countedHours:
    'Counted from the maintenance log: “{task}” was last done on {day}, about {hours} print hours since.',
  countedHoursPartly:
    'Counted from the maintenance log: “{task}” was last done on {day}, about {hours} print hours since, partly an estimate as the meter was not read of late.',
  furthestBack: 'Of {count} tasks this lies back furthest.',
  ownCases: 'own cases',
  ownClosedCases: 'This shop’s own closed cases.',
  spoolBears: 'A print at {flow} mm³/s bears about {limit} %.',
  spoolChance: 'Chance of being over that: {percent} %.',
  spoolWater:
    'Worked out from where the spool has been: about {likely} % water ({low} to {high} %) in its wettest wraps.',
});
