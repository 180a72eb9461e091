/** Names that main and preload agree on. */
export const CHANNEL = {
  call: 'rakelight:call',
  cancel: 'rakelight:cancel',
  saveFile: 'rakelight:saveFile',
  openFile: 'rakelight:openFile',
  openDocument: 'rakelight:openDocument',
  copyText: 'rakelight:copyText',
  printWindow: 'rakelight:printWindow',
  touched: 'rakelight:touched',
  progress: 'rakelight:progress',
} as const;
