import { messages } from '../messages.ts';

export const m = messages('network', {
  devicesListItAsItHolds: 'Devices list it as “{called}”. It holds until {date}.',
  firstOnceOnEachDevicePoint:
    'First, once on each device: point its camera at this square, or open <strong>{page}</strong>. The page says how the device installs the station’s root certificate; until then it warns.',
  theDeviceMustShowTheSame:
    'The device must show the same row as here, its SHA-256 fingerprint. If not, install nothing.',
  thisIsPlainHttpWhoeverIs:
    'This is plain HTTP: whoever is on the network can read along and take over a device.',
  whatIsSentIsKeptFrom:
    'What is sent is kept from others on the network by HTTPS. For that each device installs the station’s root certificate once; a page shows how.',
  whatIsSentIsKeptFromOthers:
    'What is sent is kept from others on the network by HTTPS, with the certificate that was given at the start.',
});
