/** What pdfkit has and its types leave out. */
declare namespace PDFKit {
  interface PDFPage {
    /** Colour spaces of the page by name (ISO 32000-1 section 7.8.3). */
    readonly colorSpaces: Record<string, unknown>;
  }
}
