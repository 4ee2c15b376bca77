import fc from 'fast-check';
import { expect, test } from 'vitest';
import { parseEprtArgument, parsePortArgument, refusedTarget, sameAddress } from './data-target.ts';
import { freshState } from './session-state.ts';

test('PORT is six numbers, each a byte (RFC 959 section 5.3.2)', () => {
  expect(parsePortArgument('192,0,2,7,195,80')).toEqual({ address: '192.0.2.7', port: 50_000 });
  for (const wrong of [
    '',
    '1,2,3,4,5',
    '1,2,3,4,5,6,7',
    '256,0,2,7,1,1',
    '1,2,3,4,5,256',
    'a,b,c,d,e,f',
    '1.2.3.4,5,6',
  ]) {
    expect(parsePortArgument(wrong), wrong).toBeNull();
  }
});

test('EPRT takes the examples of RFC 2428 section 2, with any delimiter', () => {
  expect(parseEprtArgument('|1|132.235.1.2|6275|')).toEqual({ address: '132.235.1.2', port: 6275 });
  expect(parseEprtArgument('|2|1080::8:800:200C:417A|5282|')).toEqual({
    address: '1080::8:800:200C:417A',
    port: 5282,
  });
  expect(parseEprtArgument('!1!10.0.0.1!2000!')).toEqual({ address: '10.0.0.1', port: 2000 });
  expect(parseEprtArgument('|9|x|1|')).toBe('unknown-protocol');
  for (const wrong of [
    '',
    '|1|10.0.0.1|2000',
    '1110.0.0.112000 1',
    '|1|::1|2000|',
    '|2|10.0.0.1|2000|',
    '|1|10.0.0.1|65536|',
    '|1|10.0.0.1|x|',
  ]) {
    expect(parseEprtArgument(wrong), wrong).toBeNull();
  }
});

test('only the client itself is dialled, on a port of 1024 or above (RFC 2577 section 3)', () => {
  const state = freshState({ peerAddress: '192.0.2.7', localAddress: '192.0.2.1', tls: null });
  expect(refusedTarget({ address: '192.0.2.7', port: 1024 }, state)).toBeNull();
  expect(refusedTarget({ address: '192.0.2.7', port: 1023 }, state)?.code).toBe(504);
  expect(refusedTarget({ address: '192.0.2.8', port: 50_000 }, state)?.code).toBe(504);
});

test('a client that gives no address means its own, but no other port than it may have', () => {
  for (const address of ['0.0.0.0', '::', '0:0:0:0:0:0:0:0']) {
    const state = freshState({
      peerAddress: address.includes(':') ? '2001:db8::7' : '192.0.2.7',
      localAddress: '192.0.2.1',
      tls: null,
    });
    expect(refusedTarget({ address, port: 1024 }, state), address).toBeNull();
    expect(refusedTarget({ address, port: 1023 }, state)?.code).toBe(504);
  }
});

test('an IPv6 address is one however it is written (RFC 4291 section 2.2)', () => {
  const forms = [
    '2001:db8:0:0:8:800:200C:417A',
    '2001:DB8::8:800:200c:417a',
    '2001:0db8:0000:0000:0008:0800:200c:417a',
  ];
  for (const one of forms)
    for (const other of forms) expect(sameAddress(one, other), `${one} ${other}`).toBe(true);
  expect(sameAddress('fe80::1%eth0', 'fe80::1')).toBe(true);
  expect(sameAddress('::1', '::2')).toBe(false);
  expect(sameAddress('1::2::3', '1::2::3')).toBe(false);
  expect(sameAddress('::1', '127.0.0.1')).toBe(false);
});

test('no argument makes the parsers throw', () => {
  fc.assert(
    fc.property(fc.string({ maxLength: 60 }), (argument) => {
      parsePortArgument(argument);
      parseEprtArgument(argument);
      sameAddress(argument, `::${argument}`);
    }),
  );
});
