(PLATES BY STRUCTURED STATEMENTS: SUB, CALL, IF, WHILE, REPEAT, INVENTED PART)
(A GRID WITH ITS CORNERS LEFT OUT, THEN A SLOT ROW)
G21 G17 G40 G49 G80 G90 G94

o100 sub
(#1 X, #2 Y, #3 DEPTH: ONE HOLE, PECKED FROM 10 MM ON)
o101 if [#3 ge 10]
G99 G83 X#1 Y#2 Z[0-#3] R2. Q7. F120.
o101 else
G99 G81 X#1 Y#2 Z[0-#3] R2. F80.
o101 endif
G80
o100 endsub

o200 sub
(#1 COLUMNS, #2 ROWS, #3 PITCH, #4 DEPTH)
#10=0
o201 while [#10 lt #2]
#11=0
o202 while [#11 lt #1]
#12=0
o203 if [[#10 eq 0] or [#10 eq [#2-1]]]
o204 if [[#11 eq 0] or [#11 eq [#1-1]]]
#12=1
o204 endif
o203 endif
o205 if [#12 eq 0]
o100 call [20+#11*#3] [20+#10*#3] [#4]
o205 endif
#11=[#11+1]
o202 endwhile
#10=[#10+1]
o201 endwhile
o200 endsub

o300 sub
(#1 X, #2 Y, #3 COUNT, #4 DEPTH)
#20=#1
o301 repeat [#3]
o100 call [#20] [#2] [#4]
#20=[#20+15]
o301 endrepeat
o300 endsub

T1 M6
G54 G0 X20. Y20.
S800 M3
G43 H1 Z50. M8
o200 call [5] [4] [25] [3]
o300 call [20] [140] [5] [3]
G0 Z50. M9
M5
G91 G28 Z0.
G90

T2 M6
G54 G0 X20. Y20.
S900 M3
G43 H2 Z50. M8
o200 call [5] [4] [25] [18]
o300 call [20] [140] [5] [24]
G0 Z50. M9
M5
G91 G28 Z0.
G90
M30
