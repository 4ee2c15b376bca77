import { expect, test } from 'vitest';
import { sentence } from '../../words/index.ts';
import { withDestination } from './with-destination.ts';

test('the line to type for a key that nobody has compared names the destination', () => {
  const shown = `SHA256:${'a'.repeat(43)}`;
  const finding = { code: 'send.host-key-unknown', args: { host: 'files.example', shown } };
  expect(sentence(withDestination(finding, 'printer'))).toContain(
    `setside destination test printer --trust ${shown}.`,
  );
  const full = { code: 'send.disk-full', args: {} };
  expect(withDestination(full, 'printer')).toEqual(full);
});
