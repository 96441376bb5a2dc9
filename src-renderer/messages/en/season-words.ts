import { messages } from '../messages.ts';

export const m = messages('seasonWords', {
  aHumidityAndCases: 'a humidity and cases',
  aHumidityAndPrintHours: 'a humidity and print hours',
  atLeastTimesWith95Confidence: 'at least {times} times with 95 % confidence',
  byChanceAloneIn: '{replace}, by chance alone in {chance}',
  casesPerPrintHour: 'cases per print hour',
  dampMonthsDifferFromDryOnes:
    'Damp months differ from dry ones in more than their air: heat, orders, people. This shows what goes together, not what makes what.',
  everyOneCameInTheDamper: 'Every one came in the damper months ({limits})',
  everyOrderOfTheMonths: 'every order of the months',
  humidityIsMissingFor: 'Humidity is missing for {shown}.',
  inPrintHours: '{cases} in {printHours} print hours',
  inTheDamperMonthsThatIs: 'In the damper months that is {times} times as often ({limits})',
  itCannotBeToldTheAir: 'It cannot be told: the air was much the same in all these months.',
  itCannotBeToldYetOf: 'It cannot be told yet: {used} of the {months} months that it takes have {usable}.',
  itCannotBeToldYetOfWith:
    'It cannot be told yet: of {all} with moisture as the cause {moistureIn} came in months with {usable}; it takes {cases}.',
  itCannotBeToldYetWith:
    'It cannot be told yet: {all} with moisture as the cause, of the {cases} that it takes.',
  lessFrequent:
    'Moisture-related cases were less frequent in damp months. Damp air does not explain that; look at what else changed with the season.',
  lessFrequentAmongAllCases:
    'Moisture-related cases were less frequent among all cases in damp months. Damp air does not explain that; look at what else changed with the season.',
  missing: 'missing',
  moreFrequent: 'Moisture-related cases were more frequent in damp months, more than chance explains.',
  moreFrequentAmongAllCases:
    'Moisture-related cases were more frequent among all cases in damp months, more than chance explains.',
  moistureRelatedCasesWereMoreFrequentIn:
    'Moisture-related cases were more frequent in damp months, but so were all others: something beside the water goes with the season.',
  noMoreFrequent: 'Moisture-related cases were no more frequent in damp months than chance explains.',
  noMoreFrequentAmongAllCases:
    'Moisture-related cases were no more frequent among all cases in damp months than chance explains.',
  monthsAboveHumidityTheOthers: 'Months above {above} % humidity: {side}; the others: {side2}. {often}.',
  more: '{missingCount} more',
  n20000RandomOrdersOf: '20,000 random orders of the months',
  noHumidityIsOnRecordFor: 'No humidity is on record for any of these months.',
  heldAgainst: 'Held against {orders}; {what}.',
  rankCorrelation:
    'Rank correlation (Spearman) of humidity and moisture-related cases over {used} months: {one}.',
  rankCorrelationBesideOthers:
    'Rank correlation (Spearman) of humidity and moisture-related cases over {used} months: {one}; of all other cases: {others}.',
  theirShareOfAllCasesAs: 'their share of all cases, as no print hours are on record',
  toWith95Confidence: '{times} to {times2} with 95 % confidence',
  typical: '{percentRh} %, typical',
});
