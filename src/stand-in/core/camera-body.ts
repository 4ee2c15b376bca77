/** Which of the pretend cameras it is: what tells its files from those of the others. All invented. */
export interface CameraBody {
  /** 1 for the first. */
  readonly number: number;
  /** Exif BodySerialNumber. */
  readonly serial: string;
  /** Four characters in front of the counter, after DCF (CIPA DC-009). */
  readonly prefix: string;
}

export const bodiesMax = 8;

/** The `number`-th camera, 1 to {@link bodiesMax}: QM-0001 writes QMST0001.DNG, QM-0002 QM020001.DNG. */
export function cameraBody(number: number): CameraBody {
  const serial = `QM-${String(number).padStart(4, '0')}`;
  return { number, serial, prefix: number === 1 ? 'QMST' : `QM${String(number).padStart(2, '0')}` };
}
