import { catalogue } from '../message.ts';

/** What is said of job files, temperature logs and the flow that a line asks for. */
export const flowTexts = catalogue('flow', {
  arcsTakenAsStraight: 'Arcs in other planes than XY (G18, G19) are taken as straight.',
  checksumWrong:
    'Line {line} does not agree with its checksum: the file is damaged there, and perhaps elsewhere.',
  chamberSet: 'The job sets the chamber to {temperature}.',
  coldReading: 'Cold it read {from}, and no reading is impossible.',
  cutOff: 'The file ends in the middle of a line: it may have been cut off.',
  diameterUnlike: 'The file was made for filament of {saidMm} mm; this one has {hereMm} mm.',
  driftsDown: 'Drifts down by {by} an hour while held.',
  driftsUp: 'Drifts up by {by} an hour while held.',
  droop: 'Its lowest was {by} below the set value, after {seconds} s: see what the job did then.',
  extruderInDoubt:
    'G90 comes after M83: machines differ in whether E is absolute then. It was read as relative, as the command that speaks of E alone says; where your machine takes it as absolute, put M82 after G90.',
  fanOnAverage: 'The job runs the part-cooling fan at {percent} % on average after the third layer.',
  fibresMayBridge:
    '{fillerPercent} % of filler through {nozzleMm} mm: chopped fibre of about {fibreMm} mm may bridge the bore and jam it.',
  fibresUnlikelyFrom: 'From {boreMm} mm up that is unlikely.',
  fibresWarning: 'A warning, not a verdict: fibres align, and powder is finer.',
  firstLayerHigh: 'The first layer is {heightMm} mm high, more than {percent} % of the bore.',
  fitsAtShareOfSpeed: 'At {likely} % of its speed there it fits ({low} % to be sure, {high} % at best).',
  gaps: '{count, plural, one {# gap} other {# gaps}} without readings, the longest {seconds} s: the line to the machine, or the log, dropped out.',
  heatsFromTo:
    'Heats from {from} to {to} in {seconds} s. Compare with what this machine usually takes: more than a third longer is too slow.',
  heldWithSwing:
    'Held for {minutes} min: swings by {swing} either way; neighbouring readings differ by {noise}.',
  heldWithWaves:
    'Held for {minutes} min: swings by {swing} either way, in waves of {seconds} s; neighbouring readings differ by {noise}.',
  impossibleReadings: '{count, plural, one {# impossible reading} other {# impossible readings}}.',
  impossibleOfReadings: '{count} of {readings} readings are impossible.',
  impossibleOfReadingsFirst: '{count} of {readings} readings are impossible, first after {seconds} s.',
  inLayer: 'Layer {layer} (line {line}): {rest}',
  inLine: 'Line {line}: {rest}',
  jumps: '{count, plural, one {# jump} other {# jumps}} faster than metal can change.',
  jumpsFirst:
    '{count, plural, one {# jump} other {# jumps}} faster than metal can change, first after {seconds} s.',
  layerHeightShare: 'Layers of {layerMm} mm through {nozzleMm} mm are {percent} % of the bore.',
  layerTimeEnough:
    'Even the shortest, layer {layer} (line {line}), takes {seconds} s, worked out from the file without acceleration.',
  layerTimeEnoughAtLine:
    'Even the shortest, at line {line}, takes {seconds} s, worked out from the file without acceleration.',
  layerTimeShort:
    'This layer takes {seconds} s; below {shortSeconds} s most polymers stay soft. If the bad place is here, answer the time for one layer with it.',
  layersKept: 'Only the first {kept} of {count} layers are kept one by one; the totals are of all.',
  linesNotRead: '{count, plural, one {# line} other {# lines}} could not be read.',
  materialNamed: 'The file names its material: {material}.',
  materialUnlike:
    'The file was made for {material}, and the filament is {here}: temperatures, fan and speed may not fit.',
  neverReached: 'It never came near {target} and no longer rose: {reached} at last.',
  noSteadyPeriod: 'The swing has no steady period.',
  noTimes:
    'From {lowest} to {highest}. The log has no times, or they go back, so swings, jumps and heating are not judged: log with a clock before each line.',
  notInGuide: 'The guide knows no such value, so the case does not take it: check the job.',
  nozzleSaid: 'The file was made for a {saidMm} mm nozzle.',
  nozzleSaidSame: 'The file was made for a {saidMm} mm nozzle, as the printer has.',
  nozzleSaidUnlike: 'The file was made for a {saidMm} mm nozzle; the printer has {hereMm} mm.',
  nozzleStillHot: 'The nozzle is still heated at the end: the file may have been cut off.',
  ofThis: 'this',
  ofPlaUnsaid: 'PLA (no polymer is said)',
  overshoot: 'It went {by} over the set value on heating up.',
  peakFlow: '{flow} mm³/s for half a second and more; 95 % of the time below {usual} mm³/s.',
  peakFlowAbove: '{flow} mm³/s, {times} times what {zone} usually melts of {ofWhat} ({low} to {high} mm³/s).',
  peakFlowWithin: 'Peak flow {flow} mm³/s, {percent} % of what {zone} usually melts of {ofWhat}.',
  plateSet: 'The job sets the bed to {temperature}.',
  pressureFalls:
    'At the same flow the pressure in the nozzle falls from {nozzleMm} mm to {falls}: a trend, as real melts change less. The hot end melts no more for it.',
  pressureThrough: '{percent} % through {boreMm} mm',
  printsAt: 'The job prints at {temperature}.',
  printsAtBetween: 'The job prints at {temperature} ({lowest} to {highest}).',
  retractions:
    '{count} retractions, {perMetre} for each metre of filament: the same stretch passes the extruder gear again and again.',
  staysAbove: 'Stays {by} above the set value on average.',
  staysBelow: 'Stays {by} below the set value on average.',
  staysInHeat: 'It stays {seconds} s in the heat; about {needed} s bring it to 90 % of the wall temperature.',
  stepHigh: 'A step of {stepMm} mm is more than {percent} % of the {nozzleMm} mm bore.',
  stopsForOperator: 'The job stops for the operator.',
  swingWhileHeld: 'Held for {minutes} min it swings by {swing} either way.',
  waits: 'The job waits {seconds} s.',
  waves: 'Even waves of {seconds} s.',
  zoneExtraLong: 'an extra long melt zone',
  zoneLong: 'a long melt zone',
  zoneShort: 'a short melt zone',
});
