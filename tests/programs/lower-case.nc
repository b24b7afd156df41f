o1050 (lower case, invented)
g21 g17 g40 g49 g80 g90 g94
t2 m6
g54 g0 x20. y20.
s900 m3
g43 h2 z50. m8
g99 g81 x20. y20. z-12. r2. f120.
x40. (second)
x60. ; third
g80
g0 z50. m9
g91 g28 z0.
g90 m5
m30
