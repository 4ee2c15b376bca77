/**
 * Tag numbers by the names their standards give them.
 * TIFF 6.0 (1992) appendix A; TIFF/EP (ISO 12234-2:2001); Exif 2.32 (CIPA DC-008-2019) tables 4 to 8;
 * DNG 1.4 (2012) chapter 4; SubIFDs from the TIFF Technical Note 1.
 */
export const tag = {
  NewSubfileType: 0x00fe,
  ImageWidth: 0x0100,
  ImageLength: 0x0101,
  BitsPerSample: 0x0102,
  Compression: 0x0103,
  PhotometricInterpretation: 0x0106,
  Make: 0x010f,
  Model: 0x0110,
  StripOffsets: 0x0111,
  Orientation: 0x0112,
  SamplesPerPixel: 0x0115,
  RowsPerStrip: 0x0116,
  StripByteCounts: 0x0117,
  PlanarConfiguration: 0x011c,
  DateTime: 0x0132,
  TileOffsets: 0x0144,
  TileByteCounts: 0x0145,
  SubIFDs: 0x014a,
  JPEGInterchangeFormat: 0x0201,
  JPEGInterchangeFormatLength: 0x0202,
  CFARepeatPatternDim: 0x828d,
  CFAPattern: 0x828e,
  ExposureTime: 0x829a,
  FNumber: 0x829d,
  ExifIFD: 0x8769,
  GPSInfo: 0x8825,
  PhotographicSensitivity: 0x8827,
  SensitivityType: 0x8830,
  StandardOutputSensitivity: 0x8831,
  RecommendedExposureIndex: 0x8832,
  ISOSpeed: 0x8833,
  DateTimeOriginal: 0x9003,
  DateTimeDigitized: 0x9004,
  OffsetTime: 0x9010,
  OffsetTimeOriginal: 0x9011,
  OffsetTimeDigitized: 0x9012,
  ShutterSpeedValue: 0x9201,
  ApertureValue: 0x9202,
  SubjectDistance: 0x9206,
  FocalLength: 0x920a,
  SubjectArea: 0x9214,
  SubSecTimeOriginal: 0x9291,
  SubSecTimeDigitized: 0x9292,
  ColorSpace: 0xa001,
  PixelXDimension: 0xa002,
  PixelYDimension: 0xa003,
  InteroperabilityIFD: 0xa005,
  SubjectLocation: 0xa214,
  FocalLengthIn35mmFilm: 0xa405,
  BodySerialNumber: 0xa431,
  LensModel: 0xa434,
  DNGVersion: 0xc612,
  UniqueCameraModel: 0xc614,
  BlackLevelRepeatDim: 0xc619,
  BlackLevel: 0xc61a,
  WhiteLevel: 0xc61d,
  DefaultCropOrigin: 0xc61f,
  DefaultCropSize: 0xc620,
  ColorMatrix1: 0xc621,
  ColorMatrix2: 0xc622,
  AnalogBalance: 0xc627,
  AsShotNeutral: 0xc628,
  AsShotWhiteXY: 0xc629,
  BaselineExposure: 0xc62a,
  CameraSerialNumber: 0xc62f,
  CalibrationIlluminant1: 0xc65a,
  CalibrationIlluminant2: 0xc65b,
  ActiveArea: 0xc68d,
  PreviewColorSpace: 0xc71a,
} as const;

/** Values of Compression that say something to us. */
export const compression = {
  none: 1,
  /** TIFF 6.0 section 22; makers use it for a plain JPEG in one strip. */
  oldJpeg: 6,
  /** TIFF Technical Note 2; in DNG also lossless JPEG, where the picture is a mosaic. */
  jpeg: 7,
} as const;

/** Values of PhotometricInterpretation that say something to us. */
export const photometric = {
  rgb: 2,
  yCbCr: 6,
  /** TIFF/EP: a colour filter array. */
  cfa: 32_803,
  /** DNG 1.4: demosaiced, still linear camera values. */
  linearRaw: 34_892,
} as const;
