/** What an XMP sidecar that came with a frame says of it; what is missing is not said. Texts are short and clean. */
export interface SidecarWords {
  /** `xmp:Rating` as it stands there, 0 for unrated. */
  readonly rating?: number;
  /** IPTC Title, Description, Creator, Copyright Notice (`dc:`). */
  readonly title?: string;
  readonly description?: string;
  readonly creator?: string;
  readonly rights?: string;
}
