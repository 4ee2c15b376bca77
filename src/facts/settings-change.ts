/** What of a camera's settings is watched: dials, menus and the quality of its files. */
export const settingNames = [
  'aperture',
  'sensitivity',
  'time',
  'white-balance',
  'program',
  'format',
  'size',
  'depth',
  'compression',
  'jpeg-compression',
] as const;
export type SettingName = (typeof settingNames)[number];

/** A setting that stands otherwise than it did when the shot's reference was taken. */
export interface SettingChange {
  readonly setting: SettingName;
  /**
   * In the reference and now. `aperture`: N of f/N; `sensitivity`: ISO 12232; `time`: seconds; `white-balance`: `auto` or
   * `manual`; `program`: the code of Exif ExposureProgram; `format`: `raw` or `jpeg`; `size`: `6000 x 4000`, pixels as
   * stored; `depth`: bits of a sample; `compression`: the
   * code of TIFF Compression of a raw; `jpeg-compression`: bits per pixel.
   */
  readonly was: string | number;
  readonly is: string | number;
}
