/** A place after the IPTC structure Location; a text that nobody said is empty. */
export interface WrittenPlace {
  readonly sublocation: string;
  readonly city: string;
  readonly province: string;
  readonly country: string;
  /** ISO 3166-1, two or three letters. */
  readonly countryCode: string;
}

/** How the creator is reached (IPTC Creator’s Contact Info). */
export interface WrittenContact {
  readonly address: string;
  readonly city: string;
  readonly province: string;
  readonly postcode: string;
  readonly country: string;
  readonly email: string;
  readonly phone: string;
  readonly website: string;
}

/**
 * What is written into a picture that is handed over, by the properties of the IPTC Photo Metadata Standard 2023.2. Texts have no
 * blanks at their ends; one that nobody said is empty, and so is a list.
 */
export interface PictureWords {
  readonly title: string;
  readonly headline: string;
  readonly caption: string;
  readonly captionWriter: string;
  readonly keywords: readonly string[];
  readonly creators: readonly string[];
  readonly creatorTitle: string;
  readonly credit: string;
  readonly source: string;
  readonly copyright: string;
  readonly usageTerms: string;
  /** Web Statement of Rights: an address. */
  readonly rightsPage: string;
  readonly contact: WrittenContact;
  /** Where the camera stood. */
  readonly placeCreated: WrittenPlace;
  /** What is to be seen. */
  readonly placesShown: readonly WrittenPlace[];
  readonly persons: readonly string[];
  readonly altText: string;
  readonly extendedDescription: string;
  /** A value of {@link digitalSourceTypes}; empty where nobody said. */
  readonly digitalSourceType: string;
  readonly instructions: string;
  readonly jobId: string;
  /** When the shutter went off, local, `YYYY-MM-DDThh:mm:ss±hh:mm`; empty where it is not known. */
  readonly createdAt: string;
}

export const nowhere: WrittenPlace = {
  sublocation: '',
  city: '',
  province: '',
  country: '',
  countryCode: '',
};

export const noContact: WrittenContact = {
  address: '',
  city: '',
  province: '',
  postcode: '',
  country: '',
  email: '',
  phone: '',
  website: '',
};

export const noPictureWords: PictureWords = {
  title: '',
  headline: '',
  caption: '',
  captionWriter: '',
  keywords: [],
  creators: [],
  creatorTitle: '',
  credit: '',
  source: '',
  copyright: '',
  usageTerms: '',
  rightsPage: '',
  contact: noContact,
  placeCreated: nowhere,
  placesShown: [],
  persons: [],
  altText: '',
  extendedDescription: '',
  digitalSourceType: '',
  instructions: '',
  jobId: '',
  createdAt: '',
};

/**
 * IPTC NewsCodes, scheme `http://cv.iptc.org/newscodes/digitalsourcetype/`: what is not retired, of the edition of 2025, as a public
 * library of provenance lists it (gem ruby-c2pa, module DigitalSourceTypes).
 */
export const digitalSourceTypes = [
  'digitalCapture',
  'computationalCapture',
  'screenCapture',
  'virtualRecording',
  'negativeFilm',
  'positiveFilm',
  'print',
  'humanEdits',
  'digitalCreation',
  'algorithmicallyEnhanced',
  'dataDrivenMedia',
  'algorithmicMedia',
  'trainedAlgorithmicMedia',
  'compositeWithTrainedAlgorithmicMedia',
  'composite',
  'compositeCapture',
  'compositeSynthetic',
] as const;

export const digitalSourceScheme = 'http://cv.iptc.org/newscodes/digitalsourcetype/';
