/** Names of the properties of a picture: IPTC Photo Metadata Standard, in plain words where it has long ones. */
export const pictureWordNames: Readonly<Record<string, string>> = {
  title: 'Title',
  headline: 'Headline',
  caption: 'Caption',
  captionWriter: 'Caption writer',
  keywords: 'Keywords',
  creators: 'Creator',
  creatorTitle: 'Creator’s job title',
  credit: 'Credit line',
  source: 'Source',
  copyright: 'Copyright notice',
  usageTerms: 'Usage terms',
  rightsPage: 'Web statement of rights',
  contact: 'Contact',
  placeCreated: 'Where it was taken',
  placesShown: 'Place shown',
  persons: 'Persons shown',
  altText: 'Alt text',
  extendedDescription: 'Extended description',
  digitalSourceType: 'Digital source type',
  instructions: 'Instructions',
  jobId: 'Client’s job number',
  createdAt: 'Date created',
};

/** Parts of a place and of a contact. */
export const placePartNames: Readonly<Record<string, string>> = {
  address: 'Address',
  postcode: 'Postcode',
  email: 'E-mail',
  phone: 'Telephone',
  website: 'Website',
  sublocation: 'Place or street',
  city: 'City',
  province: 'Province or state',
  country: 'Country',
  countryCode: 'Country code',
};

/** IPTC NewsCodes, scheme Digital Source Type; names from memory, shortened. */
export const digitalSourceNames: Readonly<Record<string, string>> = {
  digitalCapture: 'Digital capture of real life',
  computationalCapture: 'Several frames computed into one capture',
  screenCapture: 'Screen capture',
  virtualRecording: 'Recording of a virtual event',
  negativeFilm: 'Digitised from negative film',
  positiveFilm: 'Digitised from positive film',
  print: 'Digitised from a print',
  humanEdits: 'Edited by a person',
  digitalCreation: 'Made by a person with digital tools',
  algorithmicallyEnhanced: 'Altered by an algorithm',
  dataDrivenMedia: 'Drawn from data',
  algorithmicMedia: 'Made by an algorithm alone',
  trainedAlgorithmicMedia: 'Made with generative AI',
  compositeWithTrainedAlgorithmicMedia: 'Edited with generative AI',
  composite: 'Composite',
  compositeCapture: 'Composite of captures',
  compositeSynthetic: 'Composite with generative AI',
};

/** What is kept back unless somebody asks for it, and why. */
export const privateFieldWords: Readonly<Record<string, { readonly name: string; readonly why: string }>> = {
  'serial-numbers': {
    name: 'Serial numbers and the owner’s name',
    why: 'They tell one camera from all others, and who it belongs to.',
  },
  position: {
    name: 'Position',
    why: 'It tells where you were: a studio, a home, a place not yet announced.',
  },
  'capture-settings': {
    name: 'Camera, lens and exposure',
    why: 'They tell how the picture was made, which not every client is to know.',
  },
  'words-of-original': {
    name: 'What the original says of itself',
    why: 'Words that were set in the camera may be of another job.',
  },
};

/** Names of things where the words of a job’s files are written. */
export const metadataLabels = {
  title: 'Words in the files',
  write: 'Write them',
  read: 'Read them',
  fold: 'Fold them away',
  about:
    'Written into the files of every delivery of this job, as far as its specification names it. Texts may hold {client} {job} {title} {place} {shot} {description} {name} {date} {year}.',
  unreadable: 'These words were written by a later edition, or by hand, and cannot be read here: ',
  listHelp: 'Several with semicolons between.',
  keywordsHelp: 'With commas between. Those of the job and of the shot are added up.',
  countryCodeHelp: 'Two or three capitals (ISO 3166-1).',
  notSaid: 'nobody says',
  contact: 'Contact',
  place: 'Where it was taken',
  more: 'More of every picture',
  ofShot: (name: string): string => `Of the shot ${name}`,
  said: 'something is said',
  lost: (names: string): string =>
    `Words are kept for shots that are not in the list: ${names}. They count again as soon as a shot has that name.`,
  private: 'Of the camera’s own notes',
  privateAbout: 'Kept back unless you ask for it. Makers’ notes never leave.',

  kept: 'Kept for further jobs',
  keptSheet: 'Kept words',
  noneKept: 'Nothing is kept yet. Write the words once, and keep them under the client’s name.',
  lastOf: (client: string): string => `used last for ${client}`,
  use: 'Use them here',
  useReplaces: 'Puts them in the place of what stands here; that can be undone.',
  keepAs: 'Keep these words as',
  keep: 'Keep',
  keptAs: (title: string): string => `Kept as ${title}.`,
  forget: 'Forget',
  forgotten: (title: string): string => `${title} is forgotten. Jobs that use it have their own.`,
  notListed: 'Which words are kept could not be loaded. Load the page again.',
  bringBack: 'Bring it back',
  keptAgain: (title: string): string => `${title} is kept again.`,
  broken: (file: string, why: string): string =>
    `${file} cannot be used: ${why} Mend it, or take it away; nothing here touches it.`,
  failed: 'That was not done. Try again.',

  example: 'What a file would say',
  exampleFrame: 'Frame',
  exampleBy: (specification: string): string => `In a file of the delivery ${specification}.`,
  noFrame: 'Shown as soon as the job has a frame.',
  nothing: 'Nothing is written into the file.',
  cut: (dataset: string): string => `Cut in the old field ${dataset}`,
  alongWith: 'Goes along',
  wordsOfFirst: 'What the first file would say',
};
