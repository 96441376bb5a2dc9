import { catalogue } from '../message.ts';

/** Figures of a material as they are said, in the guide's texts and beside them; and what says where to look for one. */
export const figureTexts = catalogue('figures', {
  atLeast: 'at least {figure}',
  atMost: 'at most {figure}',
  fittedNozzle: 'the fitted nozzle',
  fromTo: '{low} to {high}',
  fromToUnit: '{low} to {high} {unit}',
  longerThanSheet: "longer than the maker's sheet says",
  makersChamber: "the maker's chamber temperature",
  makersDryingHours: "the drying time on the maker's sheet",
  makersDryingTemperature: "the drying temperature on the maker's sheet",
  makersFan: "the maker's fan setting",
  makersPlate: "the maker's plate temperature",
  middleOfMakersRange: "the middle of the maker's range",
  only: '{value}',
  onlyOnBetterSpool: '{temperature} ({hotter} only on a spool made for it)',
  onPlasticSpool: '{temperature} on a plastic spool',
  slowHours: '{low} to {high} h, or shorter on a spool made for more heat',
  smallestMakerAllows: 'the smallest bore the maker allows',
  softeningLimit: 'the temperature at which spool or winding softens',
  thisPolymer: 'this polymer',
  withUnit: '{value} {unit}',
});
