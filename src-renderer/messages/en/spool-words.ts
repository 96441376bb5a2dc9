import { messages } from '../messages.ts';

export const m = messages('spoolWords', {
  below001: 'below 0.01 %',
  byWhereItHasBeenIt: 'By where it has been it holds less than {target} already.',
  d: '{whole} d',
  dH: '{whole} d {whole2} h',
  dryAtFor: 'Dry at {temperature} for {hours} ({day})',
  dryAtWasDryEnoughOn: 'Dry at {temperature}. Was dry enough on {day}.',
  dryEnoughForAPrintAt: 'Dry enough for a print at {flow}: {chance} % chance of moisture defects.',
  dryItFirst: 'Dry it first',
  fitToPrintNow: 'Fit to print now',
  for: '{temperature} for {hours}',
  h: '{whole} h',
  itCannotGetDownToHere:
    'It cannot get down to {target} here: air of the room, heated, still leaves {content} in it. A dryer that dries its air gets further, and so does a hotter one where the filament bears it.',
  itDoesNotGetDownTo:
    'It does not get down to {target} within {longest} at this temperature: water leaves it too slowly. More heat, where the filament bears it, is what helps.',
  min: '{rest} min',
  mm3S: '{flowMm3PerS} mm³/s',
  moreThan: 'more than {longest}',
  n72H: '72 h',
  nearItsLimit: 'Near its limit',
  nearTheLimitForAPrint: 'Near the limit for a print at {flow}: {chance} % chance of moisture defects.',
  notKnownYet: 'Not known yet',
  notToBeUsedAsIt: 'Not to be used, as it does not get dry here',
  probablyTooWetForAPrint: 'Probably too wet for a print at {flow}: {chance} % chance of moisture defects.',
  to: '{content} ({content2} to {content3})',
  toGetBelowFromWarmOutermost:
    'To get below {target} from warm: outermost wraps {wraps}, innermost {wraps2}. Warming through takes about {hours} more.',
  toWithEndEnd2: '{end} ({end2} to {end3})',
  tooWetForAPrintAt: 'Too wet for a print at {flow}: {chance} % chance of moisture defects. Dry it first.',
});
