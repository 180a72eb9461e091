/**
 * Job shops with the least makespan that was published and proved. Plain: machine and time of each operation, job after
 * job. Flexible: for each job its number of operations, for each of those the number of machines, then machine and time.
 */
export type JobShop = { readonly name: string; readonly makespan: number; readonly text: string };

/** FT06: Fisher & Thompson 1963, in Muth & Thompson, Industrial Scheduling. LA01 to LA05: Lawrence 1984. */
export const PLAIN: readonly JobShop[] = [
  { name: 'FT06', makespan: 55, text: `6 6
2 1 0 3 1 6 3 7 5 3 4 6
1 8 2 5 4 10 5 10 0 10 3 4
2 5 3 4 5 8 0 9 1 1 4 7
1 5 0 5 2 5 3 3 4 8 5 9
2 9 1 3 4 5 5 4 0 3 3 1
1 3 3 3 5 9 0 10 4 4 2 1` },
  { name: 'LA01', makespan: 666, text: `10 5
1 21 0 53 4 95 3 55 2 34
0 21 3 52 4 16 2 26 1 71
3 39 4 98 1 42 2 31 0 12
1 77 0 55 4 79 2 66 3 77
0 83 3 34 2 64 1 19 4 37
1 54 2 43 4 79 0 92 3 62
3 69 4 77 1 87 2 87 0 93
2 38 0 60 1 41 3 24 4 83
3 17 1 49 4 25 0 44 2 98
4 77 3 79 2 43 1 75 0 96` },
  { name: 'LA02', makespan: 655, text: `10 5
0 20 3 87 1 31 4 76 2 17
4 25 2 32 0 24 1 18 3 81
1 72 2 23 4 28 0 58 3 99
2 86 1 76 4 97 0 45 3 90
4 27 0 42 3 48 2 17 1 46
1 67 0 98 4 48 3 27 2 62
4 28 1 12 3 19 0 80 2 50
1 63 0 94 2 98 3 50 4 80
4 14 0 75 2 50 1 41 3 55
4 72 2 18 1 37 3 79 0 61` },
  { name: 'LA03', makespan: 597, text: `10 5
1 23 2 45 0 82 4 84 3 38
2 21 1 29 0 18 4 41 3 50
2 38 3 54 4 16 0 52 1 52
4 37 0 54 2 74 1 62 3 57
4 57 0 81 1 61 3 68 2 30
4 81 0 79 1 89 2 89 3 11
3 33 2 20 0 91 4 20 1 66
4 24 1 84 0 32 2 55 3 8
4 56 0 7 3 54 2 64 1 39
4 40 1 83 0 19 2 8 3 7` },
  { name: 'LA04', makespan: 590, text: `10 5
0 12 2 94 3 92 4 91 1 7
1 19 3 11 4 66 2 21 0 87
1 14 0 75 3 13 4 16 2 20
2 95 4 66 0 7 3 7 1 77
1 45 3 6 4 89 0 15 2 34
3 77 2 20 0 76 4 88 1 53
2 74 1 88 0 52 3 27 4 9
1 88 3 69 0 62 4 98 2 52
2 61 4 9 0 62 1 52 3 90
2 54 4 5 3 59 1 15 0 88` },
  { name: 'LA05', makespan: 593, text: `10 5
1 72 0 87 4 95 2 66 3 60
4 5 3 35 0 48 2 39 1 54
1 46 3 20 2 21 0 97 4 55
0 59 3 19 4 46 1 34 2 37
4 23 2 73 3 25 1 24 0 28
3 28 0 45 4 5 1 78 2 83
0 53 3 71 1 37 4 29 2 12
4 12 2 87 3 33 1 55 0 38
2 49 3 83 1 40 0 48 4 7
2 65 3 17 0 90 4 27 1 23` },
];

/** Fattahi, Saidi Mehrabad & Jolai, J. Intell. Manuf. 18 (2007) 331–342. */
export const FLEXIBLE: readonly JobShop[] = [
  { name: 'Fattahi 1', makespan: 66, text: `2 2
2 2 0 25 1 37 2 0 32 1 24
2 2 0 45 1 65 2 0 21 1 65` },
  { name: 'Fattahi 2', makespan: 107, text: `2 2
2 1 0 43 2 0 64 1 71
2 2 0 21 1 35 1 1 43` },
  { name: 'Fattahi 3', makespan: 221, text: `3 2
2 1 0 43 2 0 87 1 95
2 2 0 63 1 53 1 1 73
2 2 0 125 1 135 2 0 43 1 61` },
  { name: 'Fattahi 4', makespan: 355, text: `3 2
2 2 0 54 1 63 2 0 87 1 95
2 1 1 120 1 1 152
2 2 0 125 1 135 2 0 143 1 124` },
  { name: 'Fattahi 5', makespan: 119, text: `3 2
2 2 0 43 1 36 2 0 64 1 71
2 2 0 34 1 53 2 0 36 1 21
2 2 0 21 1 35 2 0 43 1 37` },
  { name: 'Fattahi 6', makespan: 320, text: `3 3
3 1 0 17 2 0 40 1 130 2 1 50 2 60
3 1 0 30 2 0 150 1 160 1 2 70
3 2 0 50 1 60 2 1 170 2 180 2 1 90 2 100` },
  { name: 'Fattahi 7', makespan: 397, text: `3 5
3 2 0 117 1 125 2 3 140 1 130 2 3 150 4 160
3 2 0 214 2 150 2 2 55 1 66 2 4 78 2 65
3 2 0 87 1 62 2 3 70 2 80 2 3 190 4 100` },
  { name: 'Fattahi 8', makespan: 253, text: `3 4
3 2 0 17 1 25 2 3 40 1 30 2 3 150 2 160
3 2 0 30 2 50 2 3 55 1 66 2 3 78 2 65
3 2 0 56 1 62 2 1 70 2 80 2 3 90 2 100` },
  { name: 'Fattahi 9', makespan: 210, text: `3 3
3 2 0 17 1 25 2 0 40 1 30 2 1 50 2 60
3 2 0 30 2 50 2 0 50 1 60 2 1 70 2 60
3 2 0 50 1 60 2 1 70 2 80 2 1 90 2 100` },
  { name: 'Fattahi 10', makespan: 516, text: `4 5
3 1 0 147 2 3 140 1 130 2 3 150 4 160
3 2 0 214 2 150 2 2 87 1 66 1 4 178
3 2 0 87 1 62 1 2 180 2 3 190 4 100
3 2 0 87 1 65 1 4 173 2 3 145 2 136` },
];
