; SYNTAX TEST "source.nc-program" "what may stand only at the start of a line"
%
; <- keyword.other.program-mark.nc-program
  % 
; ^ keyword.other.program-mark.nc-program
% 417 X1
; <- keyword.other.program-mark.nc-program
; ^^^^^^ string.unquoted.program-name.nc-program - variable.other.axis.nc-program
O1234 (FLANGE)
; <----- entity.name.function.program-number.nc-program
N0010 G1
; <----- entity.name.label.sequence-number.nc-program
;     ^^ keyword.control.preparatory.nc-program
  / n 1 0 x1
; ^ keyword.control.block-skip.nc-program
;  ^ - entity.name.label.sequence-number.nc-program
;   ^^^^^ entity.name.label.sequence-number.nc-program
;         ^ variable.other.axis.nc-program
/2N20O7M30
; <- keyword.control.block-skip.nc-program
;^ constant.numeric.block-skip.nc-program
; ^^^ entity.name.label.sequence-number.nc-program
;    ^^ entity.name.function.program-number.nc-program
;      ^^^ keyword.other.miscellaneous.nc-program
:40 G90
; <--- entity.name.label.alignment.nc-program
;   ^^^ keyword.control.preparatory.nc-program
/X1
; <- keyword.control.block-skip.nc-program
;^ variable.other.axis.nc-program
G1 O5 N7 % / :8
;  ^ variable.parameter.address.nc-program - entity.name.function.program-number.nc-program
;     ^^^^^^^^^ - entity.name.label.sequence-number.nc-program keyword.other.program-mark.nc-program keyword.control.block-skip.nc-program entity.name.label.alignment.nc-program constant.numeric.nc-program
