import { catalogue } from '../message.ts';

/** What a spool is of, where it has been entry by entry, and why nothing is worked out of that. */
export const spoolLogTexts = catalogue('spoolLog', {
  atTemperature: '{place} at {temperature}',
  cannotBeRead: 'Cannot be read by this version, and is set aside',
  gramsLeft: '{grams} g left',
  logFirst: 'Log where the spool is, or when it was opened, and its water is worked out from there on.',
  lostInDrying: 'Lost {lost} g in drying: it had held {share} % water',
  noFigures: 'This guide has no figures of water in this polymer.',
  onPrinter: 'On {printer}',
  spent: '{place}, spent',
  tookBack: 'Took the last entry back',
  unreckonable:
    'Its water cannot be worked out: {why}. Take back the entry that is wrong, or change what is asked.',
  withFiller: '{polymer}, {filler}',
  withFillerShare: '{polymer}, {filler} {percent} %',
});
