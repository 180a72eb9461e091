/** What the program says while it starts, in the terminal and in the desktop window's own menu. */
export const startTexts = {
  'start.help':
    'Rakelight runs a paint-correction shop from one data folder on this computer.\n\n  npm start                      open the shop in its own window\n  npm start -- --demo            open the demo shop\n  npm start -- --data <folder>   use this data folder\n  npm start -- --browser         use the web browser instead of a window\n  npm start -- --port <n>        port for the browser (1024 to 65535); any free one otherwise\n  npm start -- --help            this text\n\nWithout --data the folder is {folder}',
  'start.ready': 'Rakelight is ready at {url}',
  'start.windowOpen': 'Rakelight is open in its window.',
  'start.alreadyOpen': 'Rakelight is already open on this folder; its window was brought to the front.',
  'start.freshLink': 'A link is good for one browser tab. Press Enter here for a fresh one, Ctrl+C to stop.',
  'start.buildingDemo': 'Building the demo shop…',
  'start.demoProgress': 'Building the demo shop: {percent} %',
  'start.fetching': 'Fetching the window’s runtime (once, about 120 MB): {megabytes} MB',
  'start.why.noDisplay': 'There is no display here, so Rakelight runs in the web browser.',
  'start.why.root':
    'The window’s sandbox does not work for the root user, so Rakelight runs in the web browser.',
  'start.why.noRuntime':
    'The window’s runtime is not installed and could not be fetched, so Rakelight runs in the web browser. It is tried again tomorrow.',
  'start.why.runtimeLater':
    'The window’s runtime could not be fetched earlier today, so Rakelight runs in the web browser. It is tried again tomorrow.',
  'start.why.runtimeStopped':
    'The window’s runtime stopped before it was ready ({detail}), so Rakelight runs in the web browser.',
  'start.stop.badOption': 'The option {option} does not fit: {problem} Nothing was started.',
  'start.problem.unknown': 'it is not known. See npm start -- --help.',
  'start.problem.noFolder': 'a folder name has to follow it.',
  'start.problem.port': 'a number from 1024 to 65535 has to follow it.',
  'start.stop.portInUse':
    'Port {port} is used by another program. Nothing was changed. Leave --port out, or name another one.',
  'start.stop.notWritable':
    'The data folder {folder} cannot be written ({detail}). Nothing was changed. Correct its rights, or name another folder with --data.',
  'start.stop.locked':
    'Rakelight is already running on {folder} (process {pid}). Nothing was changed. Use the one that is open, or close it first.',
  'start.stop.lockedElsewhere':
    'The computer “{machine}” has the data folder {folder} open. Nothing was changed. Close Rakelight there. Only if that computer is certainly not running it any more, delete the file {file}.',
  'start.stop.networkShare':
    'The data folder {folder} is on a network share ({system}), where two computers could damage the shop’s file. Nothing was changed. Choose a folder on this computer’s own disk with --data; copies may go to the share.',
  'start.stop.syncFolder':
    'The data folder {folder} is inside {synced}, which a sync service copies while the shop’s file is being written. Nothing was changed. Choose another folder with --data; copies may go there.',
  'start.stop.foreign':
    'The file in {folder} was made by another program, or by a build of Rakelight that this one does not know. It was not touched. Choose another folder with --data, or start the program that made it.',
  'start.stop.newer':
    'The shop’s file in {folder} was written by a newer Rakelight. It was not touched. Use the newer program.',
  'start.stop.damaged':
    'The shop’s file in {folder} does not read cleanly. It was left as it is and nothing was deleted. Copies are in {backups}: keep the damaged file aside, put the newest copy in its place as {database}, and start again.',
  'start.stop.busy':
    'The shop’s file in {folder} is held by another program. Nothing was changed. Close that program, then start again.',
  'start.stop.full': 'The disk of {folder} is full. Nothing was changed. Free some space, then start again.',
  'start.stop.readonly':
    'The shop’s file in {folder} cannot be written. Nothing was changed. Correct its rights, then start again.',
  'start.menu.file': 'File',
  'start.menu.pdf': 'Save this page as PDF…',
  'start.menu.print': 'Print this page…',
  'start.menu.quit': 'Quit',
  'start.menu.view': 'View',
  'start.dialog.saveAs': 'Save as',
  'start.door.help':
    'One action of the program from the command line; the answer is JSON.\n\n  npm run door -- --list                                  every action with the shape of its input\n  npm run door -- <name> [<json> | -] [--data <folder>]   carries one out; - reads the input from stdin\n      --as <name> [--pin <pin>]                           as this person of the shop\n      --save <file>                                       writes a document’s bytes there',
  'start.door.noName': 'The name of an action has to come first. See npm run door -- --list.',
  'start.door.notJson': 'The input is not JSON ({problem}). Nothing was done.',
  'start.door.twoInputs':
    'There is more than a name and one input: {extra}. Put the JSON in single quotes. Nothing was done.',
  'start.door.nobody': 'Nobody called {name} can sign in today. Nothing was done. Here are: {people}.',
  'start.door.pin': 'The PIN of {name} is missing or wrong. Nothing was done.',
  'start.door.saved': 'Saved {file}',
  'start.door.hostSilent':
    'The Rakelight that has this folder open does not answer. Nothing was done. Try again, or close it.',
  'start.doctor.help':
    'Checks a whole shop file against the program’s own rules. Changes nothing.\n\n  npm run doctor -- --data <folder>',
  'start.doctor.noFile': 'There is no shop file in {folder}.',
  'start.doctor.sound':
    '{checks, plural, one {# check} other {# checks}}, nothing found. The shop file is sound.',
  'start.doctor.unsound':
    '{findings, plural, one {# finding} other {# findings}} in {checks, plural, one {# check} other {# checks}}. Nothing was changed.',
} as const;
