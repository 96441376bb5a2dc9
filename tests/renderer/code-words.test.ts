import { encode } from 'uqr';
import { expect, it } from 'vitest';
import { labelCode, printerCode, scanned } from '../../src-renderer/codes/code-words.ts';

const id = '01M89S3F7F35AEGH814P1FXAJY';

it('a scanned code leads back to its spool, whatever the scanner makes of the letters', () => {
  expect(scanned(labelCode(id))).toEqual({ kind: 'spool', id });
  expect(scanned(` ${labelCode(id).toUpperCase()}\n`)).toEqual({ kind: 'spool', id });
  expect(scanned('A-12 black ABS')).toBeNull();
});

it('a printer\u2019s code is its address over HTTP and a code of ours on the desktop; both are taken, from any port', () => {
  const address = printerCode(id, 'http://127.0.0.1:4173/#/printer-codes');
  expect(address).toBe(`http://127.0.0.1:4173/#/printer/${id}`);
  const desktop = printerCode(id, 'app://beadwright/#/printer-codes');
  expect(desktop).toBe(`beadwright:printer:${id}`);
  for (const text of [address, desktop, desktop.toUpperCase(), address.replace('4173', '4180')])
    expect(scanned(text)).toEqual({ kind: 'printer', id });
  expect(scanned(`http://127.0.0.1:4173/#/case/${id}`)).toBeNull();
});

it('a printer\u2019s code stays coarse enough for a telephone at arm\u2019s length', () => {
  // 33 modules and a quiet border of 2 on 28 mm: 0.75 mm a module.
  expect(
    encode(printerCode(id, 'http://192.168.100.100:41730/'), { ecc: 'M', border: 2 }).size,
  ).toBeLessThanOrEqual(41);
});
