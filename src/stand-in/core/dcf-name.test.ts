import { expect, test } from 'vitest';
import { dcfName } from './dcf-name.ts';

// DCF (CIPA DC-009) 3.2.2 and 3.3.2: folder 100 to 999 with five free characters, file four with 0001 to 9999.
test.each([
  [1, '/DCIM/100SETSD', 'QMST0001'],
  [9999, '/DCIM/100SETSD', 'QMST9999'],
  [10_000, '/DCIM/101SETSD', 'QMST0001'],
  [900 * 9999, '/DCIM/999SETSD', 'QMST9999'],
  [900 * 9999 + 1, '/DCIM/100SETSD', 'QMST0001'],
])('frame %i of a camera is %s/%s', (ordinal, folder, stem) => {
  expect(dcfName(ordinal, 'QMST')).toEqual({ folder, stem });
});
