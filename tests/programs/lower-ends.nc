%
o1370 (typed at the control over the years, invented part)
; zero: middle of the plate
g21 g17 g40 g49 g80 g90 g94
g91 g28 z0.
g90

( spot )
t1 m6
g54 g0 x-50. y-30.
s800m3
g43h1z50.m8
g99g81x-50.y-30.z-3.r2.f80.
x0. ; middle
x50.
y30.
x0.
x-50.
( added later )
x-25. y0.
x25.
g80
g0z50.m9
m5
g91g28z0.
g90

( drill )
t2 m6
g54 g0 x-50. y-30.
s900 m3
g43 h2 z50. m8
g99 g73 x-50. y-30. z-26. r2. q6. f120. ; chips
x0.
x50.
y30.
x0.
x-50.
g80
g0 z50. m9
m5
g91 g28 z0.
g90

( tap, four corners only )t3 m6g54 g0 x-50. y-30.g43 h3 z50. m8s250 m3g99 g84 x-50. y-30. z-18. r5. f375.x50.y30.x-50.
g80
g0 z50. m9
m5
g91 g28 z0.
g90

( the two that were added )
t5 m6
g54 g0 x-25. y0.
s640 m3
g43 h5 z50. m8
#1=-25. ( left )
while [#1 le 25.] do1
g99 g83 x#1 y0. z-30. r2. q10. f115.
#1=#1+50.
end1
g80
g0 z50. m9
m5
g91 g28 z0.
g28 y0.
g90
if [#1 eq 75.] goto 99
m0 ( the count was wrong )
n99 m30
%
