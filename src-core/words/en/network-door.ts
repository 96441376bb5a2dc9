import { catalogue } from '../message.ts';

/** What somebody should see to about the door for tablets and phones. Those without a full stop end a sentence. */
export const networkDoorTexts = catalogue('networkDoor', {
  asTheSystemSays: 'the system says: {words}',
  authorityDamaged:
    'The station’s own certificate authority is damaged: {file} cannot be read, or its key is of another. Put it back from a copy; or remove it, then a new one is made, and each device installs its root anew.',
  itsRoot: 'its root',
  noName:
    'None of the names and addresses of this machine is one that its own certificate authority may vouch for: name it with --name, or bring a certificate.',
  noSuchAddress: 'this machine does not have that address',
  notRenewed: 'The certificate could not be renewed: {why}',
  portNotAllowed: 'port {port} may not be used by this user',
  portTaken: 'port {port} is taken by another program, or by another Beadwright',
  rootLapses:
    'The root certificate lapses on {day}. In the month before a new one is made, and each device then installs that.',
  rootNotFor:
    'The root certificate was made before {names} was named and may not vouch for it: devices will warn there. To have it, remove the folder of certificates ({folder}) and start again; each device then installs the new root.',
  rootNotForInMemory:
    'The root certificate was made before {names} was named and may not vouch for it: devices will warn there. To have it, start again; each device then installs the new root.',
  rootPageAway:
    'The page that hands out the root certificate is not there: {why}. Start Beadwright with --root-page and another port.',
});
export const networkDoor = networkDoorTexts.m;
