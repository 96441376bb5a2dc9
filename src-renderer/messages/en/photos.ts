import { messages } from '../messages.ts';

export const m = messages('photos', {
  addAPhoto: 'Add a photo',
  addingThePhoto: 'Adding the photo …',
  larger: '{alt}, larger',
  thePictureItselfIsNotHere:
    'The picture itself is not here: neither beside the casebook nor in its backups.',
  thePictureStaysTooLargeHowever: 'The picture stays too large, however it is made smaller. Crop it first.',
  thisBrowserCannotMakeThePicture: 'This browser cannot make the picture smaller.',
  thisBrowserCannotReadThatPicture: 'This browser cannot read that picture. Take it as JPEG or PNG.',
});
