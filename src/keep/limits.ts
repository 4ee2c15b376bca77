/** What one camera may have; a stranger who knows a password could fill memory and journal without these. */
export interface KeepLimits {
  /**
   * Files of one camera on their way at once: each holds a file open. A camera sends one or two; a client on a computer
   * perhaps ten.
   */
  readonly arrivalsPerCameraMax: number;
  /** Folders of one camera, its root among them: it makes one per day or per thousand frames. */
  readonly foldersPerCameraMax: number;
}

export const defaultKeepLimits: KeepLimits = Object.freeze({
  arrivalsPerCameraMax: 32,
  foldersPerCameraMax: 10_000,
});
