import { messages } from '../messages.ts';

export const m = messages('access', {
  aPinHasFourToTwelve: 'A PIN has four to twelve figures.',
  halfAnHourWithoutAnEntry: 'Half an hour without an entry signs you out by itself.',
  itWorksAs: 'It works as {role}.',
  itWorksAsFor: 'It works as {role} for {initials}.',
  nobodyHasAPinYetThe: 'Nobody has a PIN yet. The lead gives one at the station, in the shop under Devices.',
  pickYourInitialsFirst: 'Pick your initials first.',
  pin: 'PIN',
  signIn: 'Sign in',
  signOut: 'Sign {initials} out',
  signedIn: 'Signed in',
  thisDeviceIs: 'This device is <strong>{me}</strong>. {worksAs}',
  whoAreYou: 'Who are you?',
});
